import { describe, expect, it } from "vitest";
import { compare, setupFactor, type ConfinedBondFactor } from "../../kernel-lib/src/comparison";
import { code } from "../../kernel-lib/src/provisions";
import { table } from "../provisions/specimens";

const confined = {
  setup: "confined_tension",
  failure_mode: "bond",
  peak_load_kN: 60,
  bond_strength_mean_MPa: 12,
} as const;
const tests = table(
  { ...confined, cracked: "yes" },
  { ...confined, cracked: "no" },
  { ...confined, cracked: null },
);
const judged = (factor?: ConfinedBondFactor) =>
  compare(tests, code("uniform-bond-1998"), {
    level: "expected",
    ...(factor === undefined ? {} : { confinedBondFactor: factor }),
  });
const loads = (factor?: ConfinedBondFactor): number[] =>
  judged(factor)
    .evidence.filter(({ mode }) => mode === "bond")
    .map(({ load }) => load);

describe("factor of the test set-up", () => {
  it("is off by default: confined tests judge no bond of an anchor", () => {
    expect(loads()).toEqual([]);
    expect(loads(1)).toEqual([60, 60, 60]);
    expect(loads(0.75)).toEqual([45, 45, 45]);
  });

  // 0.75 and, for average strengths, 0.5: https://dc.uwm.edu/cee_facart/17/; 0.70 in cracked
  // concrete from memory.
  it("by name follows the crack state, and a row without one is not judged and says why", () => {
    expect(loads("product_tests")).toEqual([42, 45]);
    expect(loads("study_2020_mean")).toEqual([30, 30]);
    expect(
      judged("product_tests").unused.map(({ row, status, reason }) => [row, status, reason]),
    ).toEqual([
      [
        2,
        "input missing",
        "the set-up factor depends on whether the concrete was cracked, which is blank",
      ],
    ]);
  });

  it("refuses what is no factor", () => {
    expect(() => setupFactor(0)).toThrow(RangeError);
    expect(() => setupFactor("product_test" as "product_tests")).toThrow(
      "did you mean product_tests",
    );
  });
});
