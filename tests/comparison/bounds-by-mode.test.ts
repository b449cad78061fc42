import { describe, expect, it } from "vitest";
import { boundsByMode, compare } from "../../kernel-lib/src/comparison";
import { TestTable } from "../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";
import { code } from "../../kernel-lib/src/provisions";
import { PLAIN_TEST as base } from "../dataset/plain-test";

const tests = TestTable.fromRows([
  { ...base, test_id: "1" },
  { ...base, test_id: "2", failure_mode: "rupture_at_grip" },
  { ...base, test_id: "3" },
  { ...base, test_id: "4", setup: "unconfined_tension", failure_mode: "bar_rupture" },
  { ...base, test_id: "5", excluded: "hole not cleaned" },
  { ...base, test_id: "6", setup: "direct_shear", action: "shear", failure_mode: "bar_shear" },
]);

describe("what a mode rests on", () => {
  const of = (mode: string, rule: "stopped early" | "used" = "stopped early") =>
    boundsByMode(tests, rule).find((b) => b.mode === mode);

  it("tells values from lower bounds, only where the set-up can show the mode", () => {
    expect(of("bond")).toEqual({ mode: "bond", values: 2, lowerBounds: 2 });
    expect(of("concrete_breakout")).toEqual({
      mode: "concrete_breakout",
      values: 0,
      lowerBounds: 1,
    });
    expect(of("concrete_edge_breakout")).toEqual({
      mode: "concrete_edge_breakout",
      values: 0,
      lowerBounds: 0,
    });
  });

  it("follows the rule of the comparison: a sheared bar bounds pryout only where every failure counts as a bound", () => {
    expect(of("pryout")).toMatchObject({ lowerBounds: 0 });
    expect(of("pryout", "used")).toMatchObject({ lowerBounds: 1 });
  });

  it("counts as many tests as the comparison has ratios, where a provision answers every row", () => {
    const demo = TestTable.fromRows(generateDemonstration(1).tests);
    for (const rule of ["stopped early", "used"] as const) {
      const rupture = compare(demo, code("aci318-19"), {
        lowerBounds: rule,
        scope: "all",
      }).evidence.filter(({ mode }) => mode === "bar_rupture");
      expect(boundsByMode(demo, rule).find(({ mode }) => mode === "bar_rupture")).toEqual({
        mode: "bar_rupture",
        values: rupture.filter(({ bound }) => !bound).length,
        lowerBounds: rupture.filter(({ bound }) => bound).length,
      });
    }
  });
});
