import type { NotEstimable, Excluded } from "../result";
import { notEstimable, cleanSample, joinSetAside } from "../result";
import type { MeanWithError } from "./ratio-contrast";
import { isNoSpread, mean, variance } from "../sample/moments";

/** Names used in readings. */
export interface ComparisonNames {
  /** What is compared, default "mean". Written as in "mean pull-out load". */
  quantity?: string;
  /** Name of the first sample, the reference; default "A". */
  nameA?: string;
  /** Name of the second sample; default "B". */
  nameB?: string;
}

/** Two cleaned samples with what every two-sample method needs of them. */
export interface TwoSamples {
  a: number[];
  b: number[];
  meanA: number;
  meanB: number;
  varianceA: number;
  varianceB: number;
  excluded: Excluded[];
}

/**
 * Cleans two samples; a named "cannot be estimated" where one is too small or neither has any
 * spread.
 */
export function twoSamples(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  method: string,
  where: string,
): TwoSamples | NotEstimable {
  const first = cleanSample(a, where);
  const second = cleanSample(b, where);
  const excluded = joinSetAside(first.excluded, second.excluded);
  const n = first.values.length + second.values.length;
  if (first.values.length < 2 || second.values.length < 2) {
    return notEstimable(
      method,
      "too few values",
      `at least 2 in each sample (there are ${first.values.length} and ${second.values.length})`,
      n,
      excluded,
    );
  }
  const meanA = mean(first.values);
  const meanB = mean(second.values);
  const varianceA = variance(first.values);
  const varianceB = variance(second.values);
  if (isNoSpread(Math.sqrt(varianceA + varianceB), Math.max(Math.abs(meanA), Math.abs(meanB)))) {
    return notEstimable(
      method,
      "no spread",
      "at least one sample whose values differ",
      n,
      excluded,
    );
  }
  return { a: first.values, b: second.values, meanA, meanB, varianceA, varianceB, excluded };
}

/** The two means with the variances of the means and their degrees of freedom. */
export function meansOf(samples: TwoSamples): [a: MeanWithError, b: MeanWithError] {
  const { a, b, meanA, meanB, varianceA, varianceB } = samples;
  return [
    { mean: meanA, variance: varianceA / a.length, degrees: a.length - 1 },
    { mean: meanB, variance: varianceB / b.length, degrees: b.length - 1 },
  ];
}
