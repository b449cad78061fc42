import type { TestTable } from "../dataset";
import {
  equivalenceTest,
  hedgesG,
  mean,
  minimumDetectableDifference,
  powerOfTTest,
  ratioOfMeans,
  standardDeviation,
  welchFamily,
  type NotEstimable,
  type FamilyTest,
} from "../statistics";
import { valueWords } from "./labels";

/** Two groups of tests that differ in one column and agree in all others named. */
export interface SeriesComparison {
  readonly within: Readonly<Record<string, string | number | null>>;
  readonly reference: string;
  readonly other: string;
  readonly nReference: number;
  readonly nOther: number;
  readonly meanReference: number;
  readonly meanOther: number;
  readonly sdReference: number;
  readonly sdOther: number;
  /** Ratio of means, other over reference, with its 95 % interval; null where there is none. */
  readonly ratio: number | null;
  readonly ratioLower: number | null;
  readonly ratioUpper: number | null;
  readonly p: number | null;
  /** p after Holm's correction for all comparisons made together. */
  readonly pAdjusted: number | null;
  readonly hedgesG: number | null;
  /**
   * Smallest difference of means these sample sizes detect with power 0.8, as a share of the
   * reference mean.
   */
  readonly detectable: number | null;
  /**
   * Power to find a difference of the margin, as a share of the reference mean, with the scatter
   * seen; null where neither group scatters.
   */
  readonly powerForMargin: number | null;
  /** p of equivalence within the margin (two one-sided tests); null where there is none. */
  readonly pEquivalence: number | null;
  /** The finding, adjusted for all comparisons made together. */
  readonly reading: string;
  /** Whether the means count as the same within the margin. */
  readonly equivalenceReading: string;
}

export interface SeriesQuestion {
  /** The column that holds the groups, e.g. `bar_material`. */
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
  /**
   * Share of the reference mean within which means count as the same, fixed before the data are
   * seen; default 0.15 (no source: a choice).
   */
  readonly margin?: number;
  /** Of every interval and test; default 0.95. */
  readonly confidence?: number;
  /** The value of a row in a column; default: of the contract's columns. */
  readonly cell?: (row: number, column: string) => string | number | null;
}

/** Two groups that are not compared since one has too few tests. */
export type SeriesTooSmall = Pick<
  SeriesComparison,
  "within" | "reference" | "other" | "nReference" | "nOther"
>;

/**
 * Compares groups directly, test with test: ratio of means with interval, Welch's t (two-tailed, 5
 * %), Holm's correction over all comparisons, effect size, what difference could have been found,
 * and equivalence within a margin. The series effect is ignored: a difference between two series
 * can appear as one between groups (`compareClasses` includes the series effect). Rows with an
 * exclusion reason are left out; so are tests that did not fail in the mode named by
 * `failure_mode`, when `within` names it.
 */
export function compareSeries(tests: TestTable, question: SeriesQuestion): SeriesComparison[] {
  const pairs = pairsOf(tests, question).filter(({ a, b }) => !tooFew(a, b, question));
  return welchFamily(pairs).map((test, k) => compared(pairs[k]!, test, question));
}

/** The pairs that {@link compareSeries} does not compare, with their numbers of tests. */
export function seriesTooSmall(tests: TestTable, question: SeriesQuestion): SeriesTooSmall[] {
  return pairsOf(tests, question)
    .filter(({ a, b }) => tooFew(a, b, question))
    .map(({ within, other, a, b }) => ({
      within,
      reference: question.reference,
      other,
      nReference: a.length,
      nOther: b.length,
    }));
}

function tooFew(
  a: readonly number[],
  b: readonly number[],
  { minimum = 3 }: SeriesQuestion,
): boolean {
  return Math.min(a.length, b.length) < minimum;
}

function pairsOf(tests: TestTable, question: SeriesQuestion): Pair[] {
  const kept = Array.from({ length: tests.length }, (_, row) => row).filter(
    (row) => !tests.text(row, "excluded"),
  );
  const loads = tests.numbers("peak_load_kN");
  const valueOf = question.value ?? ((row: number): number => loads[row] ?? NaN);
  const cell =
    question.cell ??
    ((row: number, column: string): string | number | null =>
      (tests.row(row) as unknown as Record<string, string | number | null>)[column] ?? null);
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
  const pairs: Pair[] = [];
  for (const [key, groups] of [...strata].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const reference = groups.get(question.reference) ?? [];
    const keys = JSON.parse(key) as (string | number | null)[];
    const within = Object.fromEntries(
      question.within.map((column, k) => [column, keys[k] ?? null]),
    );
    for (const [other, values] of [...groups].sort(([a], [b]) => (a < b ? -1 : 1))) {
      if (other === question.reference) continue;
      pairs.push({
        within,
        other,
        a: reference,
        b: values,
        nameA: valueWords(question.reference),
        nameB: valueWords(other),
        quantity: question.quantity ?? "mean peak load",
        confidence: question.confidence ?? 0.95,
      });
    }
  }
  return pairs;
}

interface Pair {
  readonly within: SeriesComparison["within"];
  readonly other: string;
  readonly a: readonly number[];
  readonly b: readonly number[];
  readonly nameA: string;
  readonly nameB: string;
  readonly quantity: string;
  readonly confidence: number;
}

function compared(
  pair: Pair,
  test: FamilyTest | NotEstimable,
  question: SeriesQuestion,
): SeriesComparison {
  const { a, b, within, other } = pair;
  const margin = question.margin ?? 0.15;
  const ratio = ratioOfMeans(a, b, pair);
  // 1 - 0.95 without the last digits that binary numbers add.
  const level = Number((1 - pair.confidence).toPrecision(12));
  const g = hedgesG(a, b, pair);
  const meanReference = mean(a);
  const design = {
    nA: a.length,
    nB: b.length,
    sdA: standardDeviation(a),
    sdB: standardDeviation(b),
    level,
  };
  const scatters = test.status === "ok" && meanReference > 0;
  const same = equivalenceTest(
    a,
    b,
    { ratioFrom: 1 - margin, ratioTo: 1 + margin },
    { ...pair, level },
  );
  return {
    within,
    reference: question.reference,
    other,
    nReference: a.length,
    nOther: b.length,
    meanReference,
    meanOther: mean(b),
    sdReference: design.sdA,
    sdOther: design.sdB,
    ratio: ratio.status === "ok" ? ratio.ratio : null,
    ratioLower: ratio.status === "ok" ? ratio.lower : null,
    ratioUpper: ratio.status === "ok" ? ratio.upper : null,
    p: test.status === "ok" ? test.p : null,
    pAdjusted: test.status === "ok" ? test.pAdjusted : null,
    hedgesG: g.status === "ok" ? g.g : null,
    detectable: scatters ? minimumDetectableDifference(design) / meanReference : null,
    powerForMargin: scatters
      ? powerOfTTest({ ...design, difference: margin * meanReference })
      : null,
    pEquivalence: same.status === "ok" ? same.p : null,
    reading: test.reading,
    equivalenceReading: same.reading,
  };
}
