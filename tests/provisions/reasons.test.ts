import { describe, expect, it } from "vitest";
import type { TestRowInput } from "../../kernel-lib/src/dataset";
import {
  code,
  predict,
  reasonsAt,
  trace,
  type PredictionSettings,
} from "../../kernel-lib/src/provisions";
import { column, table } from "./specimens";

const aci = code("aci318-19");

function reasons(
  id: string,
  row: Partial<TestRowInput>,
  settings: PredictionSettings = {},
  of = aci,
): string[] {
  const prediction = predict(of, table(row), settings);
  const found = column(prediction, id);
  const withheld = Number.isNaN(found.capacity[0]);
  const said = reasonsAt(prediction, found, 0);
  expect(said.some(({ kind }) => kind !== "outside")).toBe(withheld);
  return said.map(({ kind, clause, says }) => `${kind} ${clause}: ${says}`);
}

describe("why a capacity is withheld", () => {
  it("says nothing of a row to which the clause applies", () => {
    expect(reasons("aci318-19/17.6.2", {})).toEqual([]);
  });

  it("names the clause that steel fails rather than a strength that steel does not need", () => {
    const row = { bar_material: "steel" as const, bar_shear_strength_MPa: null };
    expect(reasons("aci318-19/frp-transverse-shear", row)).toEqual([
      "not_applicable no clause: for FRP bars only; steel bars have a separate clause",
    ]);
    expect(
      reasons("aci440.1r-15/10.1", { ...row, cover_mm: null }, {}, code("aci440.1r-15"))[0],
    ).toBe("not_applicable 10.1: for FRP bars only");
  });

  it("takes a blank for missing, not for uncracked", () => {
    expect(reasons("aci318-19/17.6.2", { cracked: null })).toEqual([
      "missing 17.6.2: needs cracked (a statement whether the concrete was cracked)",
    ]);
  });

  it("asks for what an FRP bar lacks", () => {
    expect(reasons("aci318-19/frp-transverse-shear", { bar_shear_strength_MPa: null })).toEqual([
      "missing frp-transverse-shear: needs bar_shear_strength_MPa (transverse shear strength of the bar: measured at the expected level; specified (or measured, if none) at the nominal and design levels)",
    ]);
  });

  it("asks for the partial factor of an FRP bar that EN 1992-4 does not state", () => {
    const en = code("en1992-4-2018");
    const option = en.options["gamma_Ms_frp"]?.meaning ?? "";
    expect(reasons("en1992-4-2018/7.2.1.3", {}, { level: "design" }, en)).toEqual([
      `missing 4.4: needs option gamma_Ms_frp (${option})`,
    ]);
    expect(
      reasons("en1992-4-2018/7.2.1.3", {}, { level: "design", options: { gamma_Ms_frp: 1.6 } }, en),
    ).toEqual([]);
    expect(
      reasons("en1992-4-2018/7.2.1.3", { bar_material: "steel" }, { level: "design" }, en),
    ).toEqual([]);
  });

  it("does not take a blank uncracked bond stress from the cracked one unless told to", () => {
    // tau_cr 1000, tau_uncr 1500 psi, d 0.625 in., h_ef 6 in., c_a 4 in.; by hand.
    const near = { edge_1_mm: 101.6 };
    const kN = (row: Partial<TestRowInput>, settings: PredictionSettings = {}): number =>
      (column(predict(aci, table({ ...near, ...row }), settings), "aci318-19/17.6.5").capacity[0] ??
        NaN) / 1000;
    const blank = { bond_strength_uncracked_char_MPa: null };
    expect(kN({})).toBeCloseTo(35.06, 2);
    expect(kN(blank)).toBeNaN();
    expect(reasons("aci318-19/17.6.5", { ...near, ...blank })[0]).toMatch(
      /^missing 17\.6\.5: needs bond_strength_uncracked_char_MPa/,
    );
    expect(kN(blank, { readings: { blankUncrackedBond: "as_cracked" } })).toBeCloseTo(39.47, 2);
    // In uncracked concrete the row's own stress is the uncracked one.
    expect(kN({ ...blank, cracked: "no" })).toBeCloseTo(
      kN({ bond_strength_uncracked_char_MPa: 1000 * 0.006894757293168, cracked: "no" }),
      9,
    );
  });

  it("needs no uncracked bond stress for a single bar whose edges c_Na cannot reach", () => {
    const blank = { bond_strength_uncracked_char_MPa: null };
    const kN = (row: Partial<TestRowInput>, of = aci): number =>
      (column(predict(of, table({ ...blank, ...row })), "aci318-19/17.6.5").capacity[0] ?? NaN) /
      1000;
    // By hand: at 1000/300 of tau_cr = 1000 psi c_Na is 6.25 in. sqrt(3333.3/1100) = 10.8799 in. =
    // 276.35 mm; N_ba = pi 0.625 x 6 x 1000 lb.
    expect(kN({ edge_3_mm: 276.3 })).toBeNaN();
    expect(kN({ edge_3_mm: 276.4 })).toBeCloseTo(52.4044, 4);
    expect(kN({})).toBe(kN({ bond_strength_uncracked_char_MPa: 15 }));
    // Metric form, at 7.0/2.1: 158.75 mm sqrt(22.9825/7.6) = 276.06 mm.
    const metric = code("aci318-19m");
    expect(kN({ edge_3_mm: 276.0 }, metric)).toBeNaN();
    expect(kN({ edge_3_mm: 276.1 }, metric)).toBeCloseTo(52.4044, 4);
    // A group's areas, an eccentric load and a stress that is stated read c_Na itself, however far
    // the edges: 3.5 of tau_cr reaches beyond 277 mm.
    expect(kN({ group_nx: 2, spacing_x_mm: 100 })).toBeNaN();
    expect(
      kN({ edge_3_mm: 277, bond_strength_uncracked_char_MPa: 3.5 * 6.894757293168 }),
    ).toBeLessThan(52.4);
    // Pryout draws on it: k_cp 2 times the lesser of bond and breakout, which is the lesser here
    // whichever way the bond is.
    const pryout = (row: Partial<TestRowInput>): number =>
      column(
        predict(aci, table({ setup: "direct_shear", action: "shear", ...row })),
        "aci318-19/17.7.3",
      ).capacity[0] ?? NaN;
    expect(pryout(blank)).toBe(pryout({}));
    expect(pryout({ ...blank, edge_3_mm: 200 })).toBeNaN();
  });

  it("asks for the bond stress only where it is looked at", () => {
    const none = { bond_strength_char_MPa: null, bond_strength_uncracked_char_MPa: null };
    // Far from edges the cracked one suffices.
    expect(reasons("aci318-19/17.6.5", none).map((said) => said.split(" ")[3])).toEqual([
      "bond_strength_char_MPa",
    ]);
    expect(
      reasons("aci318-19/17.6.5", { ...none, group_nx: 2, spacing_x_mm: 100 }).map(
        (said) => said.split(" ")[3],
      ),
    ).toEqual(["bond_strength_uncracked_char_MPa", "bond_strength_char_MPa"]);
    expect(reasons("aci318-19/17.6.5", none, { options: { bond_table: 1 } })).toEqual([]);
    expect(
      reasons(
        "aci318-19/17.7.3",
        { ...none, installation: "cast_in" },
        { options: { headed_cast_in: 1 } },
      ),
    ).toEqual([]);
    expect(reasons("aci318-19/17.7.3", none)).not.toEqual([]);
  });

  it("a spacing only of groups, a thickness only in shear", () => {
    expect(reasons("aci318-19/17.6.2", { group_nx: 2 })).toEqual([
      "missing 17.6.2: needs spacing_x_mm (spacing across; 0 for one bar across)",
    ]);
    expect(reasons("aci318-19/17.6.2", { member_thickness_mm: null })).toEqual([]);
    expect(reasons("aci318-19/17.7.2", { member_thickness_mm: null, edge_1_mm: 100 })).toEqual([
      "missing 17.7.2: needs member_thickness_mm (thickness of the member)",
    ]);
  });

  it("a strength of unknown basis is not guessed, unless told how to read it", () => {
    const row = { concrete_strength_basis: "unknown" as const };
    expect(reasons("aci318-19/17.6.2", row)).toEqual([
      "missing 17.6.2: needs the basis of concrete_strength_MPa (cylinder or which cube); it is unknown for this row",
    ]);
    expect(
      reasons("aci318-19/17.6.2", row, { readings: { unknownStrengthBasis: "as_cylinder" } }),
    ).toEqual([]);
    expect(reasons("aci318-19/17.6.1.2", row)).toEqual([]);
  });

  it("lightweight concrete needs its factor, normal concrete none", () => {
    expect(reasons("aci318-19/17.6.2", { concrete_type: "lightweight" })).toHaveLength(1);
    expect(
      reasons("aci318-19/17.6.2", { concrete_type: "lightweight", lightweight_factor: 0.85 }),
    ).toEqual([]);
  });

  it("far edges, straight cast-in bars and heads without a bearing area", () => {
    expect(reasons("aci318-19/17.7.2", {})[0]).toBe(
      "not_applicable 17.7.2: edge 1 is remote, so concrete breakout toward it does not apply",
    );
    expect(reasons("aci318-19/17.6.2", { installation: "cast_in" })).toEqual([
      "not_applicable 17.6.2.2: a straight cast-in bar has no head; option headed_cast_in treats it as headed",
    ]);
    expect(reasons("aci318-19/17.6.3.2.2a", { installation: "cast_in" })[0]).toContain(
      "for headed bars",
    );
  });

  it("a limit that is only reported leaves the capacity and flags it", () => {
    expect(reasons("aci318-19/17.6.5", { embedment_mm: 15.875 * 20.1 })).toEqual([
      "outside 17.3.3: for adhesive bars with embedments of 4 to 20 diameters",
    ]);
    expect(reasons("aci318-19/17.6.5", { embedment_mm: 15.875 * 20 })).toEqual([]);
  });

  it("the hand calculation leaves a limit unjudged where an input is missing", () => {
    const { provision } = column(predict(aci, table({})), "aci318-19/17.6.5");
    const judged = (row: Partial<TestRowInput>): (boolean | null | undefined)[] | undefined =>
      trace(aci, provision, table(row), 0).parts[0]?.limits.map(({ holds }) => holds);
    expect(judged({})).toEqual([true, true, true]);
    expect(judged({ installation: "cast_in" })).toEqual([false, true, true]);
    expect(judged({ embedment_mm: 20 })).toEqual([true, false, true]);
    expect(judged({ concrete_strength_basis: "unknown" })).toEqual([true, true, null]);
  });

  it("refuses an option that the code does not offer, naming those it does", () => {
    expect(() => predict(aci, table({}), { options: { ductil: 1 } })).toThrow(
      /aci318-19 offers no option "ductil" \(did you mean ductile\?\); expected one of .*ductile/,
    );
    expect(() => code("aci318-08")).toThrow(/expected one of aci318-19/);
  });
});
