import { intervalWords, percent, pWords, significant } from "../statistics/reading";
import { isTold } from "./least-squares-reading";
import type { ClassDifference } from "./ancova-result";

interface Words {
  readonly scale: "identity" | "log";
  readonly confidence: number;
  readonly variable: string;
  readonly response: string;
  readonly basis: string;
  readonly exact: boolean;
}

/** Whether the gaps between classes change along the variable, in words. */
export function readingOf(
  differences: readonly ClassDifference[],
  p: number,
  words: Words,
): string {
  const { variable, basis } = words;
  const response = words.scale === "log" ? `ln ${words.response}` : words.response;
  if (words.exact)
    return `The line of each class fits its values exactly, so the scatter cannot be estimated (${basis}).`;
  const d = differences[0]!;
  if (differences.length === 1) {
    const numbers = `${intervalWords(d.lower, d.upper, words.confidence)}, ${pWords(d.p)}; ${basis}`;
    if (isTold(d))
      return `The difference in ${response} between ${d.first} and ${d.second} changes with ${variable}: the slope of ${d.first} is ${significant(Math.abs(d.estimate))} per unit ${d.estimate > 0 ? "higher" : "lower"} (${numbers}).`;
    return `No significant difference of slopes of ${response} on ${variable} between ${d.first} and ${d.second} was found: differences from ${significant(d.lower)} to ${significant(d.upper)} per unit are possible (${numbers}).`;
  }
  if (p < 1 - words.confidence) {
    const told = differences.filter(isTold);
    const which =
      told.length === 0
        ? "no single pair differs significantly"
        : told
            .map(
              (t) =>
                `${t.first} less ${t.second} ${significant(t.estimate)} (${intervalWords(t.lower, t.upper, words.confidence)})`,
            )
            .join("; ");
    return `The slopes of ${response} on ${variable} differ significantly between classes (F test, ${pWords(p)}; ${basis}): ${which}, not adjusted for ${differences.length} comparisons.`;
  }
  const low = Math.min(...differences.map((t) => t.lower));
  const high = Math.max(...differences.map((t) => t.upper));
  return `No significant difference of slopes of ${response} on ${variable} between classes was found (F test, ${pWords(p)}; ${basis}): pairwise differences from ${significant(low)} to ${significant(high)} per unit are within their ${percent(words.confidence)} intervals.`;
}
