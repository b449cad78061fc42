import { shapiroWilk } from "../../statistics";
import { boundsAsTested } from "./as-tested";
import { foundCells, statedCells, type CellColumn, type Cells } from "./cells";
import { boundsInGeneral, type CellBounds, type General } from "./in-general";
import type { Distribution, Question, Verdict } from "./question";
import type { GroupFacts } from "./reasons";
import type { GroupTest } from "./tests-of-group";
import { verdictAsTested } from "./verdict-as-tested";
import { verdictInGeneral } from "./verdict-in-general";

/** The verdict in general with all it rests on. */
export interface InGeneral extends Verdict {
  /** The cell that decides; empty where the group is one cell. */
  readonly cell: string;
  readonly cells: readonly CellBounds[];
  /** Mean and COV of a further test of a further series, in the deciding cell. */
  readonly ofCell: { readonly mean: number; readonly cov: number } | null;
  readonly cellColumns: readonly string[];
  /**
   * Variance of the estimate of ln(scatter), and degrees of freedom between series; null where
   * nothing is estimated.
   */
  readonly scatterError: { readonly variance: number; readonly degrees: number } | null;
  /** Share of the variance within the cells that lies between series. */
  readonly icc: number | null;
  /** Bounds with all tests in one cell; null where the group is one cell. */
  readonly pooled: {
    readonly fractile: number;
    readonly lower: number;
    readonly upper: number;
  } | null;
  /** The other distribution, where it gives another verdict. */
  readonly otherDistribution: (Verdict & { readonly distribution: Distribution }) | null;
  /**
   * p of Shapiro and Wilk's test of the residuals about the cell means, by distribution; null where
   * it cannot be made.
   */
  readonly residualFit: Readonly<Record<Distribution, number | null>>;
}

/** Both verdicts of a group. */
export interface Judgement {
  readonly asTested: Verdict;
  readonly inGeneral: InGeneral;
  /** Exact tolerance factor of the tests as tested; null with lower bounds. */
  readonly k: number | null;
  /** The fit in general; null where there is none. */
  readonly general: General | null;
}

/** Columns that part a group: those stated, or candidates among which they are looked for. */
export interface CellChoice {
  readonly stated: readonly CellColumn[] | null;
  readonly candidates: readonly CellColumn[];
}

/**
 * Answers both questions of a group of ratios, never mixed: what holds for the series tested, and
 * what holds for a further series. Fewer data never give a better general verdict: with fewer than
 * 3 series there is none.
 */
export function judgeGroup(
  tests: readonly GroupTest[],
  question: Question,
  choice: CellChoice,
  facts: Omit<GroupFacts, "cellColumns">,
): Judgement {
  const tested = boundsAsTested(tests, question);
  const asTested = verdictAsTested(tested, question, { ...facts, cellColumns: [] });
  const k = "refusal" in tested ? null : tested.k;
  const cells =
    choice.stated === null
      ? foundCells(tests, choice.candidates)
      : statedCells(tests, choice.stated);
  const { general, used } = generalOf(tests, cells, question);
  if (typeof general === "string") {
    const tooFewTests = asTested.verdict === "too few tests";
    return {
      asTested,
      k,
      general: null,
      inGeneral: {
        ...NOTHING,
        verdict: tooFewTests ? "too few tests" : "too few series",
        reason: tooFewTests ? asTested.reason : `${general}.`,
      },
    };
  }
  const named = { ...facts, cellColumns: used.columns };
  const { cell, ...verdict } = verdictInGeneral(general, question, named);
  const other = question.distribution === "normal" ? "lognormal" : "normal";
  const against = generalOf(tests, used, { ...question, distribution: other }).general;
  const otherVerdict =
    typeof against === "string"
      ? null
      : verdictInGeneral(against, { ...question, distribution: other }, named);
  const differs = otherVerdict !== null && otherVerdict.verdict !== verdict.verdict;
  const note = differs
    ? ` With a ${other} distribution: ${otherVerdict.verdict} (${otherVerdict.lower?.toFixed(3) ?? "–"} to ${otherVerdict.upper?.toFixed(3) ?? "–"}).`
    : "";
  return {
    asTested,
    k,
    general,
    inGeneral: {
      ...verdict,
      cell,
      ofCell: general.cells.find((one) => one.cell === cell) ?? null,
      reason: `${verdict.reason}${note}`,
      cells: general.cells,
      cellColumns: used.columns,
      scatterError: general.logSd,
      icc: general.icc,
      pooled:
        general.pooled === null
          ? null
          : {
              fractile: general.pooled.estimate,
              lower: general.pooled.lower,
              upper: general.pooled.upper,
            },
      otherDistribution: differs ? { ...otherVerdict, distribution: other } : null,
      residualFit: {
        normal: fitOf(general.residuals.map(Math.exp)),
        lognormal: fitOf(general.residuals),
      },
    },
  };
}

const NOTHING = {
  fractile: null,
  lower: null,
  upper: null,
  cell: "",
  cells: [],
  ofCell: null,
  cellColumns: [],
  scatterError: null,
  icc: null,
  pooled: null,
  otherDistribution: null,
  residualFit: { normal: null, lognormal: null },
} as const;

/** The fit by cells; equal values as they are. */
function generalOf(
  tests: readonly GroupTest[],
  cells: Cells,
  question: Question,
): { readonly general: General | string; readonly used: Cells } {
  const one = { columns: [], cellOf: tests.map(() => ""), found: cells.found };
  const failed = tests.filter(({ lowerBound }) => !lowerBound);
  const value = failed[0]?.ratio ?? NaN;
  const series = new Set(failed.map((test) => test.series)).size;
  if (
    series >= 3 &&
    !failed.some((test) => test.series === "") &&
    failed.every(({ ratio }) => ratio === value)
  )
    return { used: one, general: equalValues(tests, value, series) };
  return { general: boundsInGeneral(tests, cells, question), used: cells };
}

/** Failures that are all equal: no scatter, so that the fractile is their value. */
function equalValues(tests: readonly GroupTest[], value: number, series: number): General {
  const n = tests.filter(({ lowerBound }) => !lowerBound).length;
  const cell: CellBounds = {
    cell: "",
    n,
    lowerBounds: tests.length - n,
    series,
    judged: true,
    mean: value,
    cov: 0,
    logMeanVariance: 0,
    fractile: value,
    lower: value,
    upper: value,
  };
  const none = { value: Math.log(value), variance: 0, degrees: series - 1 };
  return {
    cells: [cell],
    icc: 0,
    pooled: null,
    residuals: [],
    allButEqual: true,
    mean: none,
    logSd: { ...none, value: -Infinity },
    unused: 0,
  };
}

function fitOf(residuals: readonly number[]): number | null {
  if (residuals.length > 5000) return null;
  const found = shapiroWilk(residuals);
  return found.status === "ok" ? found.p : null;
}
