import { intervalWords, percent, pWords, significant } from "../statistics/reading";
import type { Coefficient } from "./coefficient-table";
import { isTold, signed } from "./least-squares-reading";
import { INTERCEPT } from "./model-rows";

/** Coefficients, scatters and study effect, in words. */
export function readingOf(
  response: string,
  coefficients: readonly Coefficient[],
  between: { between: number; lower: number; upper: number },
  within: number,
  correlation: number,
  p: number,
  confidence: number,
  basis: string,
  [one, several]: readonly [string, string],
): string {
  const slopes = coefficients.filter((c) => c.name !== INTERCEPT);
  const words = slopes.map(
    (c) =>
      `${c.name} ${isTold(c) ? `${signed(c.estimate)} per unit` : "with a sign that is not established"} (${intervalWords(c.lower, c.upper, confidence)}, ${pWords(c.p)})`,
  );
  const scatter = `${several} vary about the common line with SD ${significant(between.between)} (${intervalWords(between.lower, between.upper, confidence)}), tests within a ${one} with SD ${significant(within)}`;
  const verdict =
    p < 0.05
      ? `a ${one} effect is shown (${pWords(p)}) and accounts for ${percent(correlation, 0)} of the variance`
      : `no significant ${one} effect was found (${pWords(p)}), which does not show that there is none`;
  return `${slopes.length === 0 ? `The mean of ${response} is ${significant(coefficients[0]?.estimate ?? NaN)} (${intervalWords(coefficients[0]?.lower ?? NaN, coefficients[0]?.upper ?? NaN, confidence)})` : `${response} changes with ${words.join(", ")}`}; ${scatter}; ${verdict} (${basis}).`;
}
