import type { TestTable } from "../dataset";
import { setupAllows, type FailureMode } from "../provisions";
import { evidenceOf, type LowerBoundRule } from "./lower-bound-rule";

/** What a mode rests on in a set of tests. */
export interface BoundCount {
  readonly mode: FailureMode;
  /** Tests that failed in the mode: the load is its value. */
  readonly values: number;
  /** Tests of which the load is only a lower bound of the mode. */
  readonly lowerBounds: number;
}

const TENSION: readonly FailureMode[] = [
  "bond",
  "concrete_breakout",
  "splitting",
  "bar_rupture",
  "yield",
];
const SHEAR: readonly FailureMode[] = ["concrete_edge_breakout", "pryout", "bar_shear"];

/**
 * For each mode the kept tests that give its value and those that only bound it from below, by the
 * rule of the comparison (`evidenceOf`): the test's arrangement must leave the mode free, and a bar
 * remote from edges tells nothing of edge breakout.
 * @example boundsByMode(data.tests).find(({ mode }) => mode === "bond")
 */
export function boundsByMode(tests: TestTable, rule: LowerBoundRule = "used"): BoundCount[] {
  const [actions, setups, observed, excluded] = [
    tests.texts("action"),
    tests.texts("setup"),
    tests.texts("failure_mode"),
    tests.texts("excluded"),
  ];
  const edges = tests.numbers("edge_1_mm");
  return [
    ...TENSION.map((mode) => ["tension", mode] as const),
    ...SHEAR.map((mode) => ["shear", mode] as const),
  ].map(([action, mode]) => {
    let [values, lowerBounds] = [0, 0];
    for (let i = 0; i < tests.length; i += 1) {
      if (
        (excluded[i] ?? null) !== null ||
        actions[i] !== action ||
        !setupAllows(setups[i] ?? null, mode)
      )
        continue;
      if (mode === "concrete_edge_breakout" && Number.isNaN(edges[i] ?? NaN)) continue;
      const tells = evidenceOf(observed[i] ?? null, [mode], rule);
      if (tells === "value") values += 1;
      else if (tells === "lower bound") lowerBounds += 1;
    }
    return { mode, values, lowerBounds };
  });
}
