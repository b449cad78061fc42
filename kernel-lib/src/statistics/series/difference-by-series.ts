import type { CensoredSample } from "../censoring/censored-profile";
import { RandomEffectsModel } from "./random-effects-model";

/** Tests of one class, each with its series. */
export interface ClassInSeries {
  readonly sample: CensoredSample;
  readonly series: readonly (string | number)[];
}

/** Difference of two means with its error. */
export interface DifferenceBySeries {
  /** Mean of b less mean of a. */
  readonly estimate: number;
  readonly standardError: number;
  /** Series with a failure in both classes together, less 2. */
  readonly degreesOfFreedom: number;
  /**
   * Restricted-likelihood estimate of the intraclass correlation; 1 where the tests of a series are
   * all but equal.
   */
  readonly correlation: number;
}

/**
 * Difference of the means of two classes of tests in series, lower bounds treated as
 * right-censored: y_ijk = μ_i + b_ij + e_ijk, b_ij ~ N(0, ρ σ²) one a series, e_ijk ~ N(0, (1 − ρ)
 * σ²) one a test, σ and ρ the same in both classes.
 *
 * ρ maximizes the likelihood integrated over both means and ln σ (Laplace's method), which without
 * lower bounds is that of restricted maximum likelihood; the variance of the difference comes from
 * the observed information there (`RandomEffectsModel`). t = estimate/SE on (series with a failure
 * − 2) degrees of freedom: without lower bounds and with series of equal size it is the t of the
 * series means where MS_series ≥ MS_within, and smaller elsewhere.
 *
 * Limits: normal values; a series that has tests in both classes counts as another in each.
 *
 * @throws NoMaximumError where a likelihood has no maximum, such as for failures that do not
 *   scatter
 * @throws RangeError for fewer than two series with a failure in a class
 * @example
 * const sample = { y: Float64Array.of(1, 1.1, 0.9, 1.2), censored: Uint8Array.of(0, 0, 0, 1) };
 * const other = { ...sample, y: Float64Array.of(1.3, 1.5, 1.2, 1.4) };
 * const series = ["1", "1", "2", "2"];
 * differenceBySeries({ sample, series }, { sample: other, series }).estimate
 */
export function differenceBySeries(a: ClassInSeries, b: ClassInSeries): DifferenceBySeries {
  const both = [a, b];
  const failed = both.map(
    ({ sample, series }) => new Set(series.filter((_, i) => sample.censored[i] !== 1)).size,
  );
  if (Math.min(...failed) < 2)
    throw new RangeError(
      `differenceBySeries: ${failed.join(" and ")} series with a failure, expected at least 2 in each class`,
    );
  const model = new RandomEffectsModel({
    y: both.flatMap(({ sample }) => Array.from(sample.y)),
    censored: both.flatMap(({ sample }) => Array.from(sample.censored)),
    series: both.flatMap(({ series }, k) => series.map((label) => `${k} ${label}`)),
    pointOf: both.flatMap(({ series }, k) => series.map(() => k)),
    points: [
      [1, 0],
      [0, 1],
    ],
    cells: 2,
  });
  const { value, variance } = model.atMode([-1, 1]);
  return {
    estimate: value,
    standardError: Math.sqrt(variance),
    degreesOfFreedom: failed[0]! + failed[1]! - 2,
    correlation: model.correlation,
  };
}
