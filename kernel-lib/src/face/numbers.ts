import { summarize, toleranceFactor as factorOf } from "../statistics";

/** Descriptive numbers of a sample; NaN where the sample is too small for one. */
export interface SampleSummary {
  readonly n: number;
  readonly mean: number;
  /** Divisor n - 1. */
  readonly sd: number;
  readonly cov: number;
  readonly min: number;
  /** mean - 3 SD, the guaranteed strength of FRP bar practice (ACI 440.1R). */
  readonly meanMinus3Sd: number;
}

/**
 * Mean, SD, COV, minimum and mean - 3 SD of numbers of one's own; missing values (NaN) are not
 * counted.
 * @example sampleSummary([42, 45, 51]) // { n: 3, mean: 46, sd: 4.58..., cov: 0.0996..., ... }
 */
export function sampleSummary(values: ArrayLike<number>): SampleSummary {
  const { n, mean, sd, cov, min } = summarize(values);
  const [centre, spread] = [mean ?? NaN, sd ?? NaN];
  return {
    n,
    mean: centre,
    sd: spread,
    cov: cov ?? NaN,
    min: min ?? NaN,
    meanMinus3Sd: centre - 3 * spread,
  };
}

type ToleranceQuestion = Parameters<typeof factorOf>[0];

/**
 * Exact one-sided tolerance factor K for a normal population of unknown mean and SD: with the
 * stated confidence at least the share 1 - fractile of the population lies above mean - K SD.
 * Sources and accuracy: `statistics/tolerance/tolerance-factor.ts`.
 * @param n number of tests, at least 2; or the whole question as one object, which also takes
 *   `degreesOfFreedom` of a pooled SD
 * @throws RangeError for n < 2 or a fractile or confidence outside 0 to 1
 * @example toleranceFactor(5, { confidence: 0.75 }) // 2.463...
 */
export function toleranceFactor(
  n: number | ToleranceQuestion,
  options: Omit<ToleranceQuestion, "n"> = {},
): number {
  return factorOf(typeof n === "number" ? { ...options, n } : n);
}
