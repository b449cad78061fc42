import type { CellColumn, Cells } from "../../../kernel-lib/src/comparison/judging/cells";
import { judgeGroup, type Judgement } from "../../../kernel-lib/src/comparison/judging/judge-group";
import type { Question } from "../../../kernel-lib/src/comparison/judging/question";
import type { GroupTest } from "../../../kernel-lib/src/comparison/judging/tests-of-group";
import type { Random } from "../../../kernel-lib/src/statistics";

export const QUESTION: Question = {
  fractile: 0.05,
  confidence: 0.9,
  distribution: "normal",
  target: 1,
};

/** Ratios by series as tests of a group; a negative number is a lower bound of that size. */
export function group(...series: readonly (readonly number[])[]): GroupTest[] {
  return series
    .flatMap((values, k) => values.map((value) => ({ value, k })))
    .map(({ value, k }, row) => ({
      ratio: Math.abs(value),
      lowerBound: value < 0,
      series: `series ${k + 1}`,
      study: "s",
      row,
    }));
}

/** Judged with the columns stated, or found among the candidates. */
export function judged(
  tests: readonly GroupTest[],
  {
    stated = null,
    candidates = [],
    question = {},
    meansWithoutSd = 0,
  }: {
    readonly stated?: readonly CellColumn[] | null;
    readonly candidates?: readonly CellColumn[];
    readonly question?: Partial<Question>;
    readonly meansWithoutSd?: number;
  } = {},
): Judgement {
  const values = tests.filter(({ lowerBound }) => !lowerBound).map(({ ratio }) => ratio);
  const facts = {
    n: values.length,
    min: values.length === 0 ? null : Math.min(...values),
    criterion: "code, nominal level",
    meansWithoutSd,
  };
  return judgeGroup(tests, { ...QUESTION, ...question }, { stated, candidates }, facts);
}

/**
 * Series of 3 to 5 tests: mean, COV of a single test, intraclass correlation, share of lower
 * bounds.
 */
export function randomSeries(
  random: Random,
  count: number,
  { mean = 1.3, cov = 0.15, icc = 0.5, bounds = 0 } = {},
): number[][] {
  return Array.from({ length: count }, () => {
    const shift = Math.sqrt(icc) * random.normal();
    return Array.from({ length: 3 + random.integer(3) }, () => {
      const ratio = Math.max(
        0.05,
        mean * (1 + cov * (shift + Math.sqrt(1 - icc) * random.normal())),
      );
      return random.uniform() < bounds ? -ratio * (0.7 + 0.3 * random.uniform()) : ratio;
    });
  });
}

/** A column whose value depends on the series. */
export function bySeries(
  name: string,
  tests: readonly GroupTest[],
  valueOf: (series: number) => string,
): CellColumn {
  return { name, valueOf: (row) => valueOf(Number(tests[row]!.series.slice(7)) - 1) };
}

export const ONE_CELL = (tests: readonly GroupTest[]): Cells => ({
  columns: [],
  cellOf: tests.map(() => ""),
  found: false,
});
