import { describe, expect, it } from "vitest";
import { TestTable, type TestRowInput } from "../../../kernel-lib/src/dataset";
import {
  code,
  governing,
  governingLine,
  governingRows,
  predict,
  provisionUse,
  VariedRow,
} from "../../../kernel-lib/src/provisions";

const bar: TestRowInput = {
  test_id: "A",
  study_id: "s",
  series_id: "s",
  bar_material: "gfrp",
  bar_diameter_mm: 16,
  bar_strength_specified_MPa: 700,
  installation: "post_installed",
  bond_strength_char_MPa: 10,
  bond_strength_uncracked_char_MPa: 10,
  concrete_strength_MPa: 20,
  concrete_strength_basis: "cylinder",
  cracked: "no",
  embedment_mm: 120,
  setup: "unconfined_tension",
  action: "tension",
  peak_load_kN: 50,
  failure_mode: "bond",
};
const tests = TestTable.fromRows([bar]);
const aci = code("aci318-19");

describe("governing mode along a number", () => {
  it("finds both changes between two values, where a third mode governs in between", () => {
    const axis = { column: "embedment_mm", values: [60, 360] };
    const line = governingLine(aci, tests, 0, axis);
    expect(line.stretches.map(({ mode }) => mode)).toEqual([
      "concrete_breakout",
      "bond",
      "bar_rupture",
    ]);
    // Paper, ACI 318-19 from memory: 17 x 1.4 sqrt(f'c) h^1.5 lb = tau pi d h, and tau pi d h = A f_u.
    const lb = 4.4482216152605;
    const cone = 17 * 1.4 * Math.sqrt(20 / 0.006894757293168) * lb * 25.4 ** -1.5;
    const first = ((10 * Math.PI * 16) / cone) ** 2;
    expect(line.stretches[0]!.to).toBeCloseTo(first, 6);
    expect(line.stretches[1]!.to).toBeCloseTo((700 * 16) / 40, 6);
    expect(line.stretches[1]!.capacityTo_N).toBeCloseTo((700 * Math.PI * 256) / 4, 3);
  });

  it("agrees with the prediction at every value, and holds what is fixed", () => {
    const values = Array.from({ length: 50 }, (_, k) => 60 + 6 * k);
    const fixed = { concrete_strength_MPa: 45 };
    const line = governingLine(aci, tests, 0, { column: "embedment_mm", values }, fixed);
    const row = new VariedRow(
      tests,
      0,
      { ...fixed, embedment_mm: Float64Array.from(values) },
      values.length,
    );
    expect(line.capacity).toEqual([...governing(predict(aci, row)).capacity]);
    for (const { from, to, mode } of line.stretches)
      values.forEach((value, k) => {
        if (value > from && value < to) expect(line.governing[k]).toBe(mode);
      });
  });

  it("rejects values that do not rise", () => {
    expect(() =>
      governingLine(aci, tests, 0, { column: "embedment_mm", values: [80, 80] }),
    ).toThrow(/at least two that rise/);
  });
});

describe("governing rows and the use of provisions", () => {
  const rows = TestTable.fromRows([
    bar,
    { ...bar, test_id: "B", bond_strength_char_MPa: null, bond_strength_uncracked_char_MPa: null },
    { ...bar, test_id: "C", embedment_mm: 500, bar_strength_specified_MPa: 3000 },
    { ...bar, test_id: "D", setup: "splice" },
    { ...bar, test_id: "E", action: "shear", setup: "direct_shear" },
  ]);
  const prediction = predict(aci, rows);
  const found = governingRows(prediction);

  it("name what lacks an input and what is outside a stated range", () => {
    expect(found.map(({ mode }) => mode)).toEqual([
      "concrete_breakout",
      "concrete_breakout",
      "bond",
      "bond",
      "pryout",
    ]);
    expect(found[0]!.missing).toEqual([]);
    expect(found[1]!.missing.join()).toMatch(/^bond \(17\.6\.5\): needs bond_strength/);
    expect(found[2]!.outside.join()).toMatch(/17\.3\.3: .*20 diameters/);
  });

  it("count rows reached, with a capacity and governed", () => {
    const bond = provisionUse(prediction).find(({ provision }) =>
      provision.id.endsWith("/17.6.5"),
    )!;
    expect([bond.reached, bond.capacities, bond.governs]).toEqual([4, 3, 2]);
    expect(bond.reasons.reduce((n, { rows: of }) => n + of, 0)).toBeGreaterThanOrEqual(1);
  });
});
