import { counted, percent, significant } from "../../statistics/reading";
import { capitalised } from "../labels";
import type { GripStrength } from "./grip-result";
import type { LawQuestion } from "./lognormal-law";

/**
 * What the tests say of a grip: how often bars broke in it, at which share, and what it can be
 * relied on for.
 */
export function gripWords(
  strength: Omit<GripStrength, "reading">,
  { fractile, confidence }: Required<LawQuestion>,
): string {
  const { label, broke, tests, rate, law, reliable, reason, series } = strength;
  const interval = `95 % CI ${significant(100 * rate.lower)} to ${significant(100 * rate.upper)} %`;
  const head =
    `${capitalised(label)}: ${broke} of ${counted(tests.length, "bar")} broke in the grip ` +
    `(${percent(rate.share)}; ${interval})${stressWords(strength)}`;
  if (reliable === null) return `${head}. Too few tests for a reliable fraction: ${reason ?? ""}.`;
  const bound =
    `Up to ${significant(reliable.share)} of bar strength at most ${percent(fractile)} of bars break ` +
    `in the grip (${percent(confidence)} confidence)`;
  if (law === null) return `${head}. ${bound}; series effect ignored. The grip may carry more.`;
  const effect =
    law.seriesEffect === "included"
      ? `series effect included, ${series} series with a break`
      : "series effect ignored: fewer than 3 series with a break, or tests without a series";
  return `${head}. Median ${significant(law.median)}, COV ${percent(law.cov)}. ${bound}; ${effect}.`;
}

function stressWords({
  lowest,
  highest,
  reached,
}: Pick<GripStrength, "lowest" | "highest" | "reached">): string {
  if (lowest === null || highest === null)
    return `, loaded up to ${significant(reached ?? NaN)} of bar strength`;
  const others = reached === null ? "" : `; the others reached up to ${significant(reached)}`;
  return `, at ${significant(lowest)} to ${significant(highest)} of bar strength${others}`;
}
