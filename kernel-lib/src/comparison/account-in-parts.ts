import type { Comparison } from "./comparison";
import { onePerTest } from "./one-per-test";

/** What became of the rows that share a study, or the mode observed and the bar material. */
export interface PartOfAccount {
  readonly by: Readonly<Record<string, string | null>>;
  readonly read: number;
  readonly excluded: number;
  readonly notJudged: number;
  /** Rows used with a ratio of their own, and as lower bounds only. */
  readonly failures: number;
  readonly lowerBounds: number;
  /** Series of the rows that are used. */
  readonly series: number;
  /** Rows that are not judged, by reason, the most frequent first. */
  readonly reasons: readonly string[];
}

/**
 * The account of rows in parts, in the order in which the parts first occur: in each, read =
 * excluded + not judged + failures + lower bounds. A row counts once, as in `accountOf`. Rows that
 * reading rejected never became tests and are in no part.
 * @param columns text columns of the tests
 * @example accountInParts(comparison, ["study_id"])
 */
export function accountInParts(
  comparison: Comparison,
  columns: readonly string[],
): readonly PartOfAccount[] {
  const { tests, unused } = comparison;
  const read = columns.map((column) => tests.texts(column));
  const keyOf = (row: number): string => JSON.stringify(read.map((texts) => texts[row] ?? null));
  const parts = new Map<string, { -readonly [K in keyof PartOfAccount]: PartOfAccount[K] }>();
  const series = new Map<string, Set<string | null>>();
  const reasons = new Map<string, Map<string, number>>();
  for (let row = 0; row < tests.length; row++) {
    const key = keyOf(row);
    const known = parts.get(key);
    if (known) known.read += 1;
    else {
      const by = Object.fromEntries(columns.map((name, k) => [name, read[k]![row] ?? null]));
      const none = { excluded: 0, notJudged: 0, failures: 0, lowerBounds: 0, series: 0 };
      parts.set(key, { by, read: 1, ...none, reasons: [] });
      series.set(key, new Set());
      reasons.set(key, new Map());
    }
  }
  for (const { row, status, reason } of unused) {
    const key = keyOf(row);
    if (status === "excluded") parts.get(key)!.excluded += 1;
    else {
      parts.get(key)!.notJudged += 1;
      const counts = reasons.get(key)!;
      counts.set(reason, (counts.get(reason) ?? 0) + 1);
    }
  }
  const seriesOf = tests.texts("series_id");
  for (const { row, bound } of onePerTest(comparison)) {
    const key = keyOf(row);
    parts.get(key)![bound ? "lowerBounds" : "failures"] += 1;
    series.get(key)!.add(`${tests.text(row, "study_id") ?? ""}/${seriesOf[row] ?? ""}`);
  }
  return [...parts].map(([key, part]) => ({
    ...part,
    series: series.get(key)!.size,
    reasons: [...reasons.get(key)!].sort(([, n], [, m]) => m - n).map(([reason]) => reason),
  }));
}
