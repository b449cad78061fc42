import { percent, pWords, significant } from "../reading";
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
}

/**
 * One sentence on a difference of two means, right for every outcome. A difference that cannot be shown is
 * never called absent: the sentence says how large it can still be.
 */
export function differenceReading(facts: DifferenceFacts): string {
  const { quantity, nameA, nameB, confidence, p, methodWords } = facts;
  const told = p < 1 - confidence;
  const ratio = facts.ratio !== null && facts.ratioInterval?.bounded ? facts.ratioInterval : null;
  const close = `${percent(confidence)} interval`;
  if (ratio && ratio.lower !== null && ratio.upper !== null && facts.ratio !== null) {
    return told
      ? `The ${quantity} of ${nameB} is ${change(facts.ratio)} than that of ${nameA} (${close} ${changeRange(ratio.lower, ratio.upper)}), ${methodWords}, ${pWords(p)}.`
      : `The data do not tell the ${quantity} of ${nameB} from that of ${nameA}: it can be from ${changeTo(ratio.lower)} to ${changeTo(ratio.upper)} (${close}), ${methodWords}, ${pWords(p)}.`;
  }
  return told
    ? `The ${quantity} of ${nameB} is ${significant(Math.abs(facts.difference))} ${facts.difference < 0 ? "lower" : "higher"} than that of ${nameA} (${close} of the difference ${significant(facts.lower)} to ${significant(facts.upper)}), ${methodWords}, ${pWords(p)}.`
    : `The data do not tell the ${quantity} of ${nameB} from that of ${nameA}: the difference can be from ${significant(facts.lower)} to ${significant(facts.upper)} (${close}), ${methodWords}, ${pWords(p)}.`;
}

function change(ratio: number): string {
  return `${sizeOfChange(ratio)} ${ratio < 1 ? "lower" : "higher"}`;
}

function changeTo(ratio: number): string {
  return change(ratio);
}

/** "6 to 22 %" with the smaller change first, both on one side of 1. */
function changeRange(lower: number, upper: number): string {
  return upper < 1 ? `${sizeOfChange(upper)} to ${sizeOfChange(lower)}` : `${sizeOfChange(lower)} to ${sizeOfChange(upper)}`;
}

function sizeOfChange(ratio: number): string {
  const size = Math.abs(ratio - 1);
  return percent(size, size < 0.1 ? 1 : 0);
}
