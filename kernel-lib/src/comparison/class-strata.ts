import type { TestTable } from "../dataset";
import type { Comparison, Evidence } from "./comparison";
import { compareKeys, keyReader } from "./group-keys";
import { onePerTest } from "./one-per-test";

/** Ratios that agree in the columns named, within which classes are compared. */
export interface ClassStratum {
  readonly within: Readonly<Record<string, string | number | null>>;
  readonly tests: TestTable;
  readonly evidence: readonly Evidence[];
}

/**
 * Ratios by the columns within which classes are compared, in the order of `groupRatios`. Without
 * `mode` a test counts once (`onePerTest`).
 * @throws Error for a name that is neither of the comparison nor a column of the tests
 * @example classStrata(comparison, ["mode", "bar_size"])
 */
export function classStrata(comparison: Comparison, by: readonly string[]): ClassStratum[] {
  const keyOf = keyReader(comparison, by);
  const strata = new Map<string, Evidence[]>();
  for (const one of by.includes("mode") ? comparison.evidence : onePerTest(comparison)) {
    const key = JSON.stringify(keyOf(one));
    const members = strata.get(key);
    if (members) members.push(one);
    else strata.set(key, [one]);
  }
  return [...strata]
    .map(([key, evidence]) => ({ keys: JSON.parse(key) as (string | number | null)[], evidence }))
    .sort((a, b) => compareKeys(a.keys, b.keys))
    .map(({ keys, evidence }) => ({
      within: Object.fromEntries(by.map((name, k) => [name, keys[k] ?? null])),
      tests: comparison.tests,
      evidence,
    }));
}
