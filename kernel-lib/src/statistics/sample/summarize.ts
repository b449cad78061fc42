import { counted, percent, significant } from "../reading";
import type { Account } from "../result";
import { cleanSample } from "../result";
import { mean, standardDeviation } from "./moments";
import { sampleQuantile } from "./quantiles";

/** Descriptive numbers of one sample; null where the sample is too small for them. */
export interface Summary extends Account {
  mean: number | null;
  /** Sample standard deviation, divisor n − 1; null for n < 2. */
  sd: number | null;
  /** Coefficient of variation SD/mean; null for n < 2 or a mean that is not positive. */
  cov: number | null;
  min: number | null;
  median: number | null;
  max: number | null;
}

/**
 * Mean, SD, COV, least, median and largest value of a sample. Missing values (NaN) are counted and
 * left out.
 * @example summarize([42, 45, 51]).cov // 0.0996…
 */
export function summarize(values: ArrayLike<number>): Summary {
  const { values: x, excluded } = cleanSample(values, "summarize");
  const n = x.length;
  const centre = n > 0 ? mean(x) : null;
  const sd = n > 1 ? standardDeviation(x) : null;
  const cov = sd !== null && centre !== null && centre > 0 ? sd / centre : null;
  return {
    method: "Descriptive statistics (SD with divisor n − 1)",
    assumptions: [],
    n,
    excluded,
    mean: centre,
    sd,
    cov,
    min: n > 0 ? least(x) : null,
    median: sampleQuantile(x, 0.5),
    max: n > 0 ? largest(x) : null,
    reading: read(n, centre, sd, cov, x),
  };
}

function read(
  n: number,
  centre: number | null,
  sd: number | null,
  cov: number | null,
  x: number[],
): string {
  if (centre === null) return "There are no values.";
  if (sd === null)
    return `There is one value, ${significant(centre)}; one value gives no information on scatter.`;
  const relative = cov === null ? "" : `, COV ${percent(cov)}`;
  return `${counted(n, "value")} with mean ${significant(centre)}, SD ${significant(sd)}${relative}, from ${significant(least(x))} to ${significant(largest(x))}.`;
}

function least(x: readonly number[]): number {
  return x.reduce((a, b) => Math.min(a, b), Infinity);
}

function largest(x: readonly number[]): number {
  return x.reduce((a, b) => Math.max(a, b), -Infinity);
}
