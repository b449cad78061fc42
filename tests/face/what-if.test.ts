import { beforeAll, describe, expect, it } from "vitest";
import { normaliseTests } from "../../kernel-lib/src/dataset";
import { openStudy } from "../../kernel-lib/src/face/open-study";
import { UnknownNameError } from "../../kernel-lib/src/face/results/names";
import type { Study } from "../../kernel-lib/src/face/study";
import { specimen } from "../../kernel-lib/src/face/tests/specimen";
import type { Tests } from "../../kernel-lib/src/face/tests/tests";

let study: Study;
let one: Tests;
beforeAll(async () => {
  study = await openStudy({ keep: "none", data: "datasets/demo" });
  one = study.where({ test_id: "IH-075-1" });
});

describe("set", () => {
  it("makes a row for every combination, without load and observed mode", () => {
    const rows = one.set({ concrete_strength_MPa: [20, 60], cracked: ["yes", "no"] });
    expect([...rows.column("concrete_strength_MPa")]).toEqual([20, 20, 60, 60]);
    expect(rows.column("cracked")).toEqual(["yes", "no", "yes", "no"]);
    expect(new Set(rows.column("test_id")).size).toBe(4);
    expect([...rows].map((row) => [row.peak_load_kN, row.failure_mode])).toEqual(
      Array(4).fill([null, null]),
    );
    expect([...rows].every((row) => row.bond_stress_MPa === null)).toBe(true);
    expect(rows.answer).toMatch(/^4 what-if rows, not tested/);
    expect([...one][0]!.peak_load_kN).toBe(79.7);
  });

  it("shows what was changed beside the capacities, which have no load", () => {
    const found = one
      .set({ concrete_strength_MPa: [20, 60], cracked: ["yes", "no"] })
      .predict("aci318-19");
    const table = found.table("all capacities");
    expect(table.columns.map(({ key }) => key)).toEqual(
      expect.arrayContaining(["concrete_strength_MPa", "cracked", "capacity_kN"]),
    );
    const breakout = table.rows.filter(({ clause }) => clause === "17.6.2");
    const capacity = breakout.map((row) => Number(row["capacity_kN"]));
    // 17.6.2.2 is proportional to sqrt(f'c), at most 8000 psi for post-installed anchors (17.3.1);
    // 17.6.2.5, post-installed: 1.4 uncracked, 1.0 cracked (ACI 318-19, from memory).
    const psi = 0.006894757293168;
    expect(capacity[2]! / capacity[0]!).toBeCloseTo(Math.sqrt((8000 * psi) / 20), 12);
    expect(capacity[1]! / capacity[0]!).toBeCloseTo(1.4, 12);
    expect([...found].every(({ ratio, load_kN }) => ratio === null && load_kN === null)).toBe(true);
    expect(found.table("governing").columns.map(({ key }) => key)).not.toContain("load_kN");
  });

  it("lends no bond strength to the other crack state, and says so", () => {
    const found = one.set({ cracked: ["yes", "no"] }).predict("aci318-19");
    const [cracked, uncracked] = [...found];
    expect(cracked!.missing).toMatch(/bond \(17\.6\.5\): needs bond_strength_char_MPa/);
    expect(uncracked!.missing).toBeNull();
    expect(found.findings().text).toMatch(/Where cracked changed, bond_strength_char_MPa/);
    const stated = one.set({ cracked: "yes", bond_strength_char_MPa: 6 }).predict("aci318-19");
    expect([...stated][0]!.missing).toBeNull();
    const back = one
      .set({ cracked: "yes", bond_strength_char_MPa: 6 })
      .set({ cracked: "no" })
      .column("bond_strength_char_MPa");
    expect([...back]).toEqual([10.5]);
  });

  it("computes derived columns anew and leaves the area of another bar out", () => {
    const rows = one.set({ bar_diameter_mm: [12.7, 15.9], embedment_mm: 254 });
    expect([...rows.column("embedment_to_diameter")]).toEqual([20, 254 / 15.9]);
    expect([...rows.column("bar_area_mm2")]).toEqual([NaN, 199]);
    expect(rows.column("provenance")).toEqual(["demo", "demo"]);
    expect(rows.column("bar_class")).toEqual(["frp", "frp"]);
  });

  it("cannot be compared, and says why", () => {
    expect(() => one.set({ embedment_mm: 80 }).compare("aci318-19")).toThrow(
      /not tested: they have no load and no failure mode/,
    );
    expect(() =>
      one.set({ embedment_mm: 80 }).where({ bar_class: "frp" }).compare("aci318-19"),
    ).toThrow(RangeError);
  });

  it("rejects wrong columns and values", () => {
    expect(() => one.set({ embedmet_mm: 80 } as object)).toThrow(UnknownNameError);
    expect(() => one.set({ bar_class: "steel" })).toThrow(UnknownNameError);
    expect(() => one.set({ peak_load_kN: 80 })).toThrow(/what a test gives/);
    expect(() => one.set({ embedment_mm: -80 })).toThrow(/Expected a number above 0 in mm/);
    expect(() => one.set({ cracked: "no crack" as "no" })).toThrow(/Expected one of yes, no/);
    expect(() => one.set({ embedment_mm: [] })).toThrow(/empty/);
  });

  it("keeps its rows apart when set twice", () => {
    const rows = one.set({ embedment_mm: [80, 90] }).set({ cracked: ["no", "yes"] });
    expect(new Set(rows.column("test_id")).size).toBe(4);
    expect(rows.predict("aci318-19").table().rows).toHaveLength(4);
  });
});

describe("specimen", () => {
  const values = {
    bar_material: "gfrp",
    bar_diameter_mm: 16,
    embedment_mm: 160,
    installation: "post_installed",
    concrete_strength_MPa: 30,
    concrete_strength_basis: "cylinder",
    setup: "unconfined_tension",
    action: "tension",
  } as const;

  it("is one row that nobody made", () => {
    const bar = specimen({ ...values, cracked: "no" }, { keep: "none" });
    expect(bar.length).toBe(1);
    expect(bar.answer).toMatch(/^1 what-if row, not tested/);
    expect(() => bar.compare("aci318-19")).toThrow(/not tested/);
    const [row] = [...bar.predict("aci318-19")];
    // 17 x 1.4 sqrt(30 MPa in psi) (160 mm in in.)^1.5 lb, ACI 318-19 17.6.2 from memory.
    const breakout =
      17 * 1.4 * Math.sqrt(30 / 0.006894757293168) * (160 / 25.4) ** 1.5 * 4.4482216152605;
    expect(row!.capacity_kN).toBeCloseTo(breakout / 1000, 6);
    expect(row!.missing).toMatch(/bond \(17\.6\.5\): .*needs bond_strength_char_MPa/);
    expect(bar.explain("specimen", "aci318-19").toText()).toContain("17.6.2");
  });

  it("rejects what is missing, misspelt or measured", () => {
    expect(() => specimen({ ...values, action: undefined } as object)).toThrow(
      /does not state action/,
    );
    expect(() => specimen({ ...values, embedmet_mm: 3 } as object)).toThrow(
      /did you mean embedment_mm/,
    );
    expect(() => specimen({ ...values, peak_load_kN: 12 })).toThrow(/what a test gives/);
    expect(() => specimen({ ...values, embedment_mm: 0 })).toThrow(/above 0 in mm/);
  });
});

describe("atConcreteStrength", () => {
  it("brings loads of concrete modes by the square root and leaves bar modes as they are", () => {
    const tests = study.where({ failure_mode: ["concrete_breakout", "bar_rupture"] });
    const brought = [...tests.atConcreteStrength(30)];
    const before = [...tests];
    expect(before.length).toBeGreaterThan(50);
    expect(new Set(before.map((row) => row.failure_mode)).size).toBe(2);
    brought.forEach((row, i) => {
      const { peak_load_kN, concrete_strength_MPa, failure_mode, excluded } = before[i]!;
      const m = failure_mode === "bar_rupture" ? 0 : 0.5;
      if (excluded !== null) return;
      expect(row.peak_load_kN).toBeCloseTo(peak_load_kN * (30 / concrete_strength_MPa) ** m, 9);
      expect(row.concrete_strength_MPa).toBe(30);
    });
  });

  it("excludes tests without an exponent with the reason, unless it is fitted", () => {
    const bond = study.where({ failure_mode: "bond", setup: "confined_tension" });
    const plain = bond.atConcreteStrength(30);
    expect(plain.answer).toMatch(/\d+ not adjusted and excluded/);
    expect([...plain].every(({ excluded }) => excluded?.includes("no exponent"))).toBe(true);
    expect([...plain.column("peak_load_kN")]).toEqual([...bond.column("peak_load_kN")]);
    const fitted = bond.atConcreteStrength(30, { exponent: "fitted" });
    const room = normaliseTests(bond.chosen.table, {
      quantity: "load",
      by: "concrete",
      reference_MPa: 30,
      exponent: "fitted",
    });
    const loads = fitted.column("peak_load_kN");
    room.tests.forEach(({ index, normalised }) => expect(loads[index]).toBe(normalised));
    expect(fitted.answer).toContain(`fitted exponent ${room.fit!.exponent.toPrecision(3)}`);
    expect(() => bond.atConcreteStrength(0)).toThrow(RangeError);
  });
});
