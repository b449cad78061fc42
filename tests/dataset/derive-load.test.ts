import { describe, expect, it } from "vitest";
import { parseTests } from "../../kernel-lib/src/dataset";
import { deriveLoad } from "../../kernel-lib/src/dataset/reading/derive-load";

const of = (values: Readonly<Record<string, number>>, action: string | null = "tension") =>
  deriveLoad((name) => values[name] ?? NaN, action);

describe("a load derived from another measure", () => {
  it("from the bar's stress: P = n sigma A, with the area given or of the diameter", () => {
    // By hand: 500 MPa x 199 mm2 = 99.5 kN; 500 x pi/4 x 16^2 = 100.53 kN; two bars twice that.
    expect(of({ peak_bar_stress_MPa: 500, bar_area_mm2: 199, bar_diameter_mm: 16 })).toEqual({
      load_kN: 99.5,
      rule: "peak_bar_stress_MPa x bar_area_mm2",
    });
    expect(of({ peak_bar_stress_MPa: 500, bar_diameter_mm: 16 })?.load_kN).toBeCloseTo(100.531, 3);
    expect(of({ peak_bar_stress_MPa: 500, bar_area_mm2: 199, group_nx: 2 })?.load_kN).toBe(199);
  });
  it("from the bond stress: the published averages of bars of 28 mm, 384 kN at 840 mm and 5.20 MPa (Bai et al. 2017, doi 10.12783/dtmse/ictim2017/10098)", () => {
    const load =
      of({ reported_bond_strength_MPa: 5.2, bar_diameter_mm: 28, embedment_mm: 840 })?.load_kN ??
      NaN;
    expect(Math.abs(load / 384 - 1)).toBeLessThan(0.002);
  });
  it("takes the diameter that belongs to the stress and says what the other would change", () => {
    expect(
      of({
        reported_bond_strength_MPa: 21.9,
        effective_diameter_mm: 14.41,
        bar_diameter_mm: 12.7,
        embedment_mm: 60,
      }),
    ).toMatchObject({
      rule: "pi x effective_diameter_mm x embedment_mm x reported_bond_strength_MPa (with bar_diameter_mm -12 %)",
    });
  });
  it("not in shear, and not where a part is blank", () => {
    expect(of({ peak_bar_stress_MPa: 500, bar_area_mm2: 199 }, "shear")).toBeNull();
    expect(of({ reported_bond_strength_MPa: 5, bar_diameter_mm: 28 })).toBeNull();
    expect(of({ bar_diameter_mm: 28, embedment_mm: 100 })).toBeNull();
  });
});

describe("while reading", () => {
  const header =
    "test_id,study_id,series_id,bar_material,bar_diameter_mm,installation,concrete_strength_MPa,concrete_strength_basis,embedment_mm,setup,action,peak_load_kN,failure_mode";
  const row = (id: string, load: string, more: string): string =>
    `${id},s,a,gfrp,16,cast_in,30,cylinder,80,pullout_block,tension,${load},bond,${more}`;
  const read = (text: string) => parseTests(new TextEncoder().encode(text), "t.csv");

  it("a load that is given is kept, a blank one is derived and marked; units of the measure are converted", () => {
    const { tests } = read(
      [`${header},peak_bar_stress_ksi`, row("1", "41", "30"), row("2", "", "30")].join("\n"),
    );
    expect(tests.number(0, "peak_load_kN")).toBe(41);
    // 30 ksi = 206.84 MPa (NIST SP 811) on pi/4 x 16^2 mm2
    expect(tests.number(1, "peak_load_kN")).toBeCloseTo((206.84271879504 * Math.PI * 64) / 1000, 6);
    expect(tests.texts("derived_columns")).toEqual([null, "peak_load_kN"]);
    expect(tests.texts("load_rule")).toEqual([
      null,
      "peak_bar_stress_MPa x pi/4 bar_diameter_mm^2",
    ]);
  });
  it("without any measure the load stays required, as it was", () => {
    const { tests, diagnostics } = read([`${header},note`, row("1", "", "x")].join("\n"));
    expect(tests.length).toBe(0);
    expect(diagnostics.find(({ rule }) => rule === "missing-value")?.message).toBe(
      "t.csv row 2: peak_load_kN is blank, expected a number above 0 in kN",
    );
  });
});
