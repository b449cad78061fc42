import { counted, percent, pWords, significant } from "../reading";
import type { RatioInterval } from "./ratio-interval";

/** What a sentence about two means is made of. */
export interface DifferenceFacts {
  quantity: string;
  nameA: string;
  nameB: string;
  /** B − A. */
  difference: number;
  lower: number;
  upper: number;
  /** B/A and its interval; null where a ratio makes no sense. */
  ratio: number | null;
  ratioInterval: RatioInterval | null;
  confidence: number;
  p: number;
  methodWords: string;
  /** Number of comparisons that p is adjusted for; 1 where it is not. */
  comparisons?: number;
  /** How p is adjusted; default "Holm-adjusted". */
  adjustment?: string;
  /** True where the interval holds together with those of the other comparisons. */
  joint?: boolean;
}

/**
 * Words on a difference of two means, right for every outcome. A difference that is not significant
 * is never called absent: the interval says how large it can still be.
 */
export function differenceReading(facts: DifferenceFacts): string {
  const {
    quantity,
    nameA,
    nameB,
    confidence,
    p,
    methodWords,
    comparisons = 1,
    adjustment = "Holm-adjusted",
  } = facts;
  // A lower end at or below 0 would read as a fall of more than 100 %.
  const ratio =
    facts.ratio !== null && facts.ratioInterval?.bounded && (facts.ratioInterval.lower ?? 0) > 0
      ? facts.ratioInterval
      : null;
  const interval = `${percent(confidence)} ${facts.joint ? "joint " : ""}CI`;
  const test = `${methodWords}, ${pWords(p)}${comparisons > 1 ? `, ${adjustment} for ${counted(comparisons, "comparison")}` : ""}`;
  const byRatio =
    ratio !== null && ratio.lower !== null && ratio.upper !== null && facts.ratio !== null;
  if (p < 1 - confidence) {
    return byRatio
      ? `The ${quantity} of ${nameB} is ${change(facts.ratio!)} than that of ${nameA} (${interval} ${changeRange(ratio.lower!, ratio.upper!)}; ${test}).`
      : `The ${quantity} of ${nameB} is ${significant(Math.abs(facts.difference))} ${facts.difference < 0 ? "lower" : "higher"} than that of ${nameA} (${interval} of the difference ${significant(facts.lower)} to ${significant(facts.upper)}; ${test}).`;
  }
  const range = byRatio
    ? `${signedChange(ratio.lower!)} to ${signedChange(ratio.upper!)} %`
    : `of the difference ${significant(facts.lower)} to ${significant(facts.upper)}`;
  return `No significant difference in ${quantity} was found (${test}; ${interval} ${range}). This does not show that ${nameA} and ${nameB} are equal.`;
}

/** "−12" or "+4.3", the change in percent with its sign. */
function signedChange(ratio: number): string {
  return `${ratio < 1 ? "−" : "+"}${sizeOfChange(ratio).replace(" %", "")}`;
}

function change(ratio: number): string {
  return `${sizeOfChange(ratio)} ${ratio < 1 ? "lower" : "higher"}`;
}

/** "6 to 22 %" with the smaller change first, both on one side of 1. */
function changeRange(lower: number, upper: number): string {
  const [least, most] = upper < 1 ? [upper, lower] : [lower, upper];
  return `${sizeOfChange(least).replace(" %", "")} to ${sizeOfChange(most)}`;
}

/**
 * A change in percent, to two figures below 10 %: a change that was found is never printed as 0 %.
 */
function sizeOfChange(ratio: number): string {
  const size = Math.abs(ratio - 1);
  return percent(
    size,
    size === 0 ? 0 : Math.min(12, Math.max(0, 1 - Math.floor(Math.log10(100 * size)))),
  );
}
