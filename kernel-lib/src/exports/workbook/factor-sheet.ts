import type { RatioGroup } from "../../comparison";
import { toleranceFactor } from "../../statistics";
import type { Cell, Sheet } from "../../tables";

/** What is asked of the groups; the distribution is that of each group. */
export interface CharacteristicQuestion {
  readonly fractile: number;
  readonly confidence: number;
}

export const FACTOR_SHEET = "K";
/** Rows of the table of factors start here (counted from 1). */
const FIRST_FACTOR_ROW = 5;

/**
 * Confidences of the lower bound, of the median estimate and of the upper bound, in the order of
 * the columns of factors.
 */
export function confidencesOf({
  confidence,
}: CharacteristicQuestion): readonly [lower: number, median: number, upper: number] {
  return [confidence, 0.5, 1 - confidence];
}

export const percent = (share: number): string => `${Number((100 * share).toPrecision(6))} %`;

/** The exact one-sided tolerance factors by number of tests and confidence, read by other sheets. */
export function factorSheet(
  groups: readonly RatioGroup[],
  question: CharacteristicQuestion,
): Sheet {
  const most = Math.max(30, ...groups.map(({ n }) => n));
  const { fractile } = question;
  const levels = confidencesOf(question);
  const rows: Cell[][] = [
    [{ value: "One-sided tolerance factors K", look: "title" }],
    [
      {
        value: `Exact, from the noncentral t distribution; ${percent(fractile)} fractile, SD unknown. Mean − K × SD (of the logarithms for a lognormal distribution) is the lower bound of the fractile with K at ${percent(levels[0])} confidence, its median estimate with K at 50 %, and its upper bound with K at ${percent(levels[2])}.`,
        look: "note",
      },
    ],
    [],
    [
      { value: "n", look: "heading" },
      ...levels.map((level): Cell => ({ value: `K at ${percent(level)}`, look: "heading" })),
    ],
  ];
  for (let n = 2; n <= most; n++)
    rows.push([n, ...levels.map((confidence) => toleranceFactor({ n, fractile, confidence }))]);
  return {
    name: FACTOR_SHEET,
    rows,
    widths: [12, 24, 24, 24],
    frozenRows: FIRST_FACTOR_ROW - 1,
    merged: [2],
  };
}
