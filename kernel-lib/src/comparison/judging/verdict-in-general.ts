import type { CellBounds, General } from "./in-general";
import type { Question, Verdict } from "./question";
import {
  boundsWords,
  criterionWords,
  neededWords,
  ratioWords,
  withHiddenScatter,
  type GroupFacts,
} from "./reasons";

/** The verdict in general, with the cell whose numbers it shows. */
export interface GeneralVerdict extends Verdict {
  /** The cell that decides; empty where the group is one cell. */
  readonly cell: string;
}

/**
 * The verdict for a further series, that of the worst cell: `meets` where the lower bound of every
 * cell is at least the target, that of cells with too few series for a verdict of their own too
 * (the scatter is common, so that they have one; with the estimate alone a bad cell of 2 series let
 * the group meet in 36 to 43 % of samples); `falls short` where the simultaneous upper bound of a
 * judged cell is below the target; else `undecided`.
 */
export function verdictInGeneral(
  { cells }: Pick<General, "cells">,
  question: Question,
  facts: GroupFacts,
): GeneralVerdict {
  const { target } = question;
  const judged = cells.filter((one) => one.judged);
  if (judged.length === 0)
    return {
      verdict: "too few series",
      fractile: null,
      lower: null,
      upper: null,
      cell: "",
      reason: `none of the ${cells.length} cells has 3 series with a failure.`,
    };
  const short = least(
    judged.filter(({ upper }) => upper < target),
    ({ upper }) => upper,
  );
  if (short !== null)
    return {
      verdict: "falls short",
      ...short,
      reason: `${of(short, cells)}the upper bound of the ${criterionWords(question)}, ${ratioWords(short.upper, target)}, is below ${target.toFixed(1)} (${basis(short, judged, facts)}).${explained(short.upper, facts)}`,
    };
  const open = least(
    judged.filter(({ lower }) => lower < target),
    ({ lower }) => lower,
  );
  if (open !== null)
    return {
      verdict: "undecided",
      ...open,
      reason: `${of(open, cells)}${boundsWords(open, question)} (${basis(open, judged, facts)}). ${neededWords(open, target, open.series, "series")}${explained(open.lower, facts, target)}`,
    };
  const low = least(
    cells.filter((one) => !one.judged && one.lower < target),
    ({ lower }) => lower,
  );
  if (low !== null)
    return {
      verdict: "undecided",
      ...low,
      reason: `${of(low, cells)}r_k = ${ratioWords(low.lower, target)} is below ${target.toFixed(1)} with ${low.series} series; at least 3 are needed for a verdict on it. All cells with 3 series meet.`,
    };
  const worst = least(judged, ({ lower }) => lower)!;
  return withHiddenScatter(
    {
      verdict: "meets",
      ...worst,
      reason: `${of(worst, cells, "lowest in ")}r_k = ${ratioWords(worst.lower, target)} ≥ ${target.toFixed(1)} (${basis(worst, judged, facts)}).`,
    },
    facts,
  );
}

interface Shown {
  readonly fractile: number;
  readonly lower: number;
  readonly upper: number;
  readonly cell: string;
  readonly n: number;
  readonly series: number;
}

function least(cells: readonly CellBounds[], by: (cell: CellBounds) => number): Shown | null {
  if (cells.length === 0) return null;
  const { fractile, lower, upper, cell, n, series } = cells.reduce((low, one) =>
    by(one) < by(low) ? one : low,
  );
  return { fractile, lower, upper, cell, n, series };
}

/** "for pair: " where the group has several cells. */
function of(shown: Shown, cells: readonly CellBounds[], before: string = "for "): string {
  return cells.length > 1 ? `${before}${shown.cell}: ` : "";
}

function basis(shown: Shown, judged: readonly CellBounds[], facts: GroupFacts): string {
  const cells =
    judged.length > 1
      ? `, the lowest of ${judged.length} cells by ${facts.cellColumns.join(", ")}`
      : "";
  return `${shown.n} failures in ${shown.series} series${cells}, series effect included; ${facts.criterion}`;
}

/**
 * Why a bound can lie below every test, or below the target although no test does: said where there
 * are many.
 */
function explained(bound: number, { n, min }: GroupFacts, target: number = -Infinity): string {
  if (min === null || n < 10 || bound >= min || min < target) return "";
  return ` Every test is above ${ratioWords(bound, target)}; the bound accounts for a further series and the uncertainty of the scatter.`;
}
