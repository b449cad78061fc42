import type { TestTable } from "../dataset";
import { adjustPValues, hedgesG, minimumDetectableDifference, ratioOfMeans, summarize, welchTest } from "../statistics";

/** Two groups of tests that differ in one column and agree in all others named. */
export interface SeriesComparison {
  readonly within: Readonly<Record<string, string | number | null>>;
  readonly reference: string;
  readonly other: string;
  readonly nReference: number;
  readonly nOther: number;
  readonly meanReference: number;
  readonly meanOther: number;
  /** Ratio of means, other over reference, with its 95 % interval; null where it cannot be told. */
  readonly ratio: number | null;
  readonly ratioLower: number | null;
  readonly ratioUpper: number | null;
  readonly p: number | null;
  /** p after Holm's correction for all comparisons made together. */
  readonly pAdjusted: number | null;
  readonly hedgesG: number | null;
  /** Smallest difference of means these sample sizes detect with power 0.8, as a share of the reference mean. */
  readonly detectable: number | null;
  readonly reading: string;
}

export interface SeriesQuestion {
  /** The column that tells the groups apart, e.g. `bar_material`. */
  readonly column: string;
  /** Its value in the reference group, e.g. `steel`. */
  readonly reference: string;
  /** Columns in which compared groups must agree. */
  readonly within: readonly string[];
  /** What is compared for each row; the peak load in kN by default. */
  readonly value?: (row: number) => number;
  readonly quantity?: string;
  /** Fewest tests on each side; default 3. */
  readonly minimum?: number;
}

/**
 * Compares groups directly, test with test: ratio of means with interval, Welch's t (two-tailed, 5 %), Holm's
 * correction over all comparisons, effect size and what difference could have been found. Rows with an exclusion
 * reason are left out; so are tests that did not fail in the mode named by `failure_mode`, when `within` names it.
 */
export function compareSeries(tests: TestTable, question: SeriesQuestion): SeriesComparison[] {
  const kept = Array.from({ length: tests.length }, (_, row) => row).filter((row) => !tests.text(row, "excluded"));
  const loads = tests.numbers("peak_load_kN");
  const valueOf = question.value ?? ((row: number): number => loads[row] ?? NaN);
  const cell = (row: number, column: string): string | number | null => (tests.row(row) as unknown as Record<string, string | number | null>)[column] ?? null;
  const strata = new Map<string, Map<string, number[]>>();
  for (const row of kept) {
    const value = valueOf(row);
    if (Number.isNaN(value)) continue;
    const key = JSON.stringify(question.within.map((column) => cell(row, column)));
    const groups = strata.get(key) ?? new Map<string, number[]>();
    strata.set(key, groups);
    const name = String(cell(row, question.column));
    groups.set(name, [...(groups.get(name) ?? []), value]);
  }
  const found: SeriesComparison[] = [];
  for (const [key, groups] of [...strata].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const reference = groups.get(question.reference) ?? [];
    const keys = JSON.parse(key) as (string | number | null)[];
    const within = Object.fromEntries(question.within.map((column, k) => [column, keys[k] ?? null]));
    for (const [other, values] of [...groups].sort(([a], [b]) => (a < b ? -1 : 1))) {
      if (other === question.reference || Math.min(reference.length, values.length) < (question.minimum ?? 3)) continue;
      found.push(comparePair(within, question, reference, other, values));
    }
  }
  const told = found.filter(({ p }) => p !== null);
  const adjusted = adjustPValues(told.map(({ p }) => p ?? 1), "holm");
  const byPair = new Map(told.map((one, k) => [one, adjusted[k] ?? null]));
  return found.map((one) => ({ ...one, pAdjusted: byPair.get(one) ?? null }));
}

function comparePair(within: SeriesComparison["within"], question: SeriesQuestion, reference: readonly number[], other: string, values: readonly number[]): SeriesComparison {
  const names = { nameA: question.reference, nameB: other, quantity: question.quantity ?? "mean peak load" };
  const welch = welchTest(reference, values, names);
  const ratio = ratioOfMeans(reference, values, names);
  const g = hedgesG(reference, values, names);
  const [a, b] = [summarize(reference), summarize(values)];
  const pooled = Math.sqrt(((a.sd ?? 0) ** 2 + (b.sd ?? 0) ** 2) / 2);
  const meanReference = a.mean ?? NaN;
  return {
    within, reference: question.reference, other, nReference: reference.length, nOther: values.length, meanReference, meanOther: b.mean ?? NaN,
    ratio: ratio.status === "ok" ? ratio.ratio : null,
    ratioLower: ratio.status === "ok" ? ratio.lower : null,
    ratioUpper: ratio.status === "ok" ? ratio.upper : null,
    p: welch.status === "ok" ? welch.p : null,
    pAdjusted: null,
    hedgesG: g.status === "ok" ? g.g : null,
    detectable: pooled > 0 ? minimumDetectableDifference({ nA: reference.length, nB: values.length, sd: pooled }) / meanReference : null,
    reading: welch.reading,
  };
}
