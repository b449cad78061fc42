import { governing } from "../provisions";
import type { Comparison } from "./compare";

/** How often each observed mode was predicted as which. */
export interface ModeTable {
  readonly observed: readonly string[];
  readonly predicted: readonly string[];
  /** counts[observed][predicted] */
  readonly counts: readonly (readonly number[])[];
}

/** Observed by predicted failure mode, over the tests that are not excluded. "none" where no provision applies. */
export function modeTable(comparison: Comparison): ModeTable {
  const least = governing(comparison.prediction);
  const [modes, excluded] = [comparison.tests.texts("failure_mode"), comparison.tests.texts("excluded")];
  const pairs = new Map<string, number>();
  const [observed, predicted] = [new Set<string>(), new Set<string>()];
  for (let row = 0; row < comparison.tests.length; row++) {
    if (excluded[row]) continue;
    const seen = modes[row] ?? "unknown";
    const told = comparison.prediction.columns[least.column[row] ?? -1]?.provision.modes[0] ?? "none";
    observed.add(seen);
    predicted.add(told);
    const key = `${seen}|${told}`;
    pairs.set(key, (pairs.get(key) ?? 0) + 1);
  }
  const [rows, columns] = [[...observed].sort(), [...predicted].sort()];
  return { observed: rows, predicted: columns, counts: rows.map((seen) => columns.map((told) => pairs.get(`${seen}|${told}`) ?? 0)) };
}
