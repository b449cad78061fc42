import { governing } from "../provisions";
import type { Comparison } from "./comparison";
import { ScopeRule } from "./scope";

/** How often each observed mode was predicted as which. */
export interface ModeTable {
  readonly observed: readonly string[];
  readonly predicted: readonly string[];
  /** counts[observed][predicted] */
  readonly counts: readonly (readonly number[])[];
}

/**
 * Observed by predicted failure mode, over the tests that are not excluded. The predicted mode is
 * that of the least capacity: "not judged" where its provision is outside the comparison's scope
 * for the test, "none" where no provision applies.
 */
export function modeTable(comparison: Comparison): ModeTable {
  const least = governing(comparison.prediction);
  const rule = new ScopeRule(comparison.prediction, comparison.confinedBondFactor !== null);
  const [modes, excluded] = [
    comparison.tests.texts("failure_mode"),
    comparison.tests.texts("excluded"),
  ];
  const actions = comparison.tests.texts("action");
  const judged = new Set(
    comparison.evidence.flatMap(({ row, mode }) => (mode === "interaction" ? [row] : [])),
  );
  const pairs = new Map<string, number>();
  const [observed, predicted] = [new Set<string>(), new Set<string>()];
  for (let row = 0; row < comparison.tests.length; row++) {
    if (excluded[row]) continue;
    const seen = modes[row] ?? "unknown";
    const column = least.column[row] ?? -1;
    const inScope =
      comparison.scope === "all" || column < 0 || rule.at(row, column, false).status === "judged";
    const told =
      actions[row] === "tension_and_shear"
        ? judged.has(row)
          ? "interaction"
          : "not judged"
        : inScope
          ? (comparison.prediction.columns[column]?.provision.modes[0] ?? "none")
          : "not judged";
    observed.add(seen);
    predicted.add(told);
    const key = `${seen}|${told}`;
    pairs.set(key, (pairs.get(key) ?? 0) + 1);
  }
  const [rows, columns] = [[...observed].sort(), [...predicted].sort()];
  return {
    observed: rows,
    predicted: columns,
    counts: rows.map((seen) => columns.map((told) => pairs.get(`${seen}|${told}`) ?? 0)),
  };
}
