import { describe, expect, it } from "vitest";
import { suspiciousValues, TestTable, type TestRowInput } from "../../kernel-lib/src/dataset";

const good: TestRowInput = {
  test_id: "1",
  study_id: "s",
  series_id: "a",
  bar_material: "gfrp",
  bar_diameter_mm: 16,
  bar_area_mm2: 201,
  bar_strength_MPa: 800,
  bar_modulus_GPa: 48,
  installation: "post_installed",
  hole_diameter_mm: 20,
  concrete_strength_MPa: 30,
  concrete_strength_basis: "cylinder",
  embedment_mm: 128,
  member_thickness_mm: 250,
  edge_1_mm: 100,
  setup: "unconfined_tension",
  action: "tension",
  peak_load_kN: 50,
  failure_mode: "bond",
};
const rules = (change: Partial<TestRowInput>): string[] =>
  suspiciousValues(TestTable.fromRows([{ ...good, ...change }])).map(({ rule }) => rule);

describe("suspicious values", () => {
  it("has nothing to say of an ordinary test, nor of one that is excluded already", () => {
    expect(rules({})).toEqual([]);
    expect(rules({ concrete_strength_MPa: 300, excluded: "typed wrongly" })).toEqual([]);
    expect(
      rules({
        bar_area_mm2: null,
        bar_modulus_GPa: null,
        hole_diameter_mm: null,
        edge_1_mm: null,
        bar_strength_MPa: null,
        member_thickness_mm: null,
      }),
    ).toEqual([]);
  });

  it.each<[string, Partial<TestRowInput>, Partial<TestRowInput>]>([
    // rule, just inside, just outside
    ["embedment-ratio", { embedment_mm: 64 }, { embedment_mm: 63 }],
    [
      "embedment-ratio",
      { embedment_mm: 320, member_thickness_mm: 400 },
      { embedment_mm: 321, member_thickness_mm: 400 },
    ],
    ["concrete-strength", { concrete_strength_MPa: 10 }, { concrete_strength_MPa: 9.9 }],
    ["concrete-strength", { concrete_strength_MPa: 200 }, { concrete_strength_MPa: 201 }],
    ["bar-area", { bar_area_mm2: 145 }, { bar_area_mm2: 139 }],
    ["bar-stress", { peak_load_kN: 176 }, { peak_load_kN: 177 }],
    ["modulus", { bar_modulus_GPa: 74 }, { bar_modulus_GPa: 160 }],
    [
      "bond-stress",
      { peak_load_kN: 385, bar_strength_MPa: null },
      { peak_load_kN: 387, bar_strength_MPa: null },
    ],
    ["edge-inside-bar", { edge_1_mm: 8 }, { edge_1_mm: 7.9 }],
    ["hole", { hole_diameter_mm: 16.1 }, { hole_diameter_mm: 16 }],
    ["thickness", { member_thickness_mm: 128 }, { member_thickness_mm: 127 }],
    ["group-spacing", { group_ny: 2, spacing_y_mm: 50 }, { group_ny: 2 }],
    ["group-spacing", { group_nx: 2, spacing_x_mm: 17 }, { group_nx: 2, spacing_x_mm: 16 }],
    ["action-of-setup", {}, { action: "shear" }],
    ["yield-above-strength", { bar_yield_MPa: 800 }, { bar_yield_MPa: 801 }],
    // 50 kN / 201 mm2 = 248.8 MPa
    [
      "grip-break-load",
      { failure_mode: "rupture_at_grip", grip: "other", grip_break_stress_MPa: 253 },
      { failure_mode: "rupture_at_grip", grip: "other", grip_break_stress_MPa: 255 },
    ],
    [
      "grip-break-mode",
      { failure_mode: "stopped", grip_break_stress_MPa: 240 },
      { grip_break_stress_MPa: 240 },
    ],
    [
      "grip-break-strength",
      { failure_mode: "stopped", grip_break_stress_MPa: 880 },
      { failure_mode: "stopped", grip_break_stress_MPa: 881 },
    ],
    [
      "grip-break-strength",
      {
        bar_strength_MPa: null,
        bar_strength_specified_MPa: 800,
        failure_mode: "stopped",
        grip_break_stress_MPa: 1200,
      },
      {
        bar_strength_MPa: null,
        bar_strength_specified_MPa: 800,
        failure_mode: "stopped",
        grip_break_stress_MPa: 1201,
      },
    ],
    [
      "grip-of-action",
      { action: "shear", setup: "direct_shear", failure_mode: "bar_shear" },
      { action: "shear", setup: "direct_shear", failure_mode: "rupture_at_grip", grip: "other" },
    ],
    [
      "unnamed-grip",
      { failure_mode: "rupture_at_grip", grip: "cast_block" },
      { failure_mode: "rupture_at_grip" },
    ],
    // 50 kN / (pi 16 128) = 7.771 MPa
    [
      "reported-bond-stress",
      { extra: { reported_bond_strength_MPa: 7.9 } },
      { extra: { reported_bond_strength_MPa: 8.0 } },
    ],
    // 7.771 x 16/17 = 7.314 MPa with the measured diameter
    [
      "reported-bond-stress",
      { extra: { reported_bond_strength_MPa: 7.3, effective_diameter_mm: 17 } },
      { extra: { reported_bond_strength_MPa: 7.3 } },
    ],
  ])("%s", (rule, inside, outside) => {
    expect(rules(inside)).toEqual([]);
    expect(rules(outside)).toEqual([rule]);
  });

  it("counts the bars of a group", () => {
    expect(rules({ peak_load_kN: 300, group_ny: 2, spacing_y_mm: 100 })).toEqual([]);
    expect(rules({ peak_load_kN: 300 })).toEqual(["bar-stress"]);
  });
});
