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
    return `Each class's line meets its values to rounding, so no scatter can be judged (${basis}).`;
  const d = differences[0]!;
  if (differences.length === 1) {
    const numbers = `${intervalWords(d.lower, d.upper, words.confidence)}, ${pWords(d.p)}; ${basis}`;
    if (isTold(d))
      return `The gap in ${response} between ${d.first} and ${d.second} changes with ${variable}: the slope of ${d.first} is ${significant(Math.abs(d.estimate))} a unit ${d.estimate > 0 ? "higher" : "lower"} (${numbers}).`;
    return `These data do not show whether the gap in ${response} between ${d.first} and ${d.second} changes with ${variable}: the slopes may still differ by anything from ${significant(d.lower)} to ${significant(d.upper)} a unit (${numbers}).`;
  }
  if (p < 1 - words.confidence) {
    const told = differences.filter(isTold);
    const which =
      told.length === 0
        ? "no single pair stands out"
        : told
            .map(
              (t) =>
                `${t.first} less ${t.second} ${significant(t.estimate)} (${intervalWords(t.lower, t.upper, words.confidence)})`,
            )
            .join("; ");
    return `The classes' slopes of ${response} on ${variable} differ (F test, ${pWords(p)}; ${basis}): ${which}, not adjusted for ${differences.length} comparisons.`;
  }
  const low = Math.min(...differences.map((t) => t.lower));
  const high = Math.max(...differences.map((t) => t.upper));
  return `These data do not show whether the classes' slopes of ${response} on ${variable} differ (F test, ${pWords(p)}; ${basis}): pairwise differences from ${significant(low)} to ${significant(high)} a unit are within their ${percent(words.confidence)} intervals.`;
}
