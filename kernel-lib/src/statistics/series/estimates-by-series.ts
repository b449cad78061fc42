import type { CensoredSample } from "../censoring/censored-profile";
import { RandomEffectsModel } from "./random-effects-model";

/** Location and scatter of a single test of any series, each with the variance of its estimate. */
export interface EstimatesBySeries {
  readonly mean: number;
  readonly meanVariance: number;
  readonly logSd: number;
  readonly logSdVariance: number;
  /** Most likely intraclass correlation. */
  readonly correlation: number;
  /** Series with at least one failure, less one. */
  readonly degrees: number;
}

/**
 * Mean and ln SD of normal tests in series, lower bounds counted as such (model of
 * `characteristicBySeries`): the mean at the most likely intraclass correlation, ln SD averaged
 * over it by its weights, its variance with that of the average.
 *
 * @throws NoMaximumError where the likelihood has no maximum
 */
export function estimatesBySeries(
  { y, censored }: CensoredSample,
  series: readonly (string | number)[],
): EstimatesBySeries {
  const model = new RandomEffectsModel({
    y,
    censored,
    series,
    pointOf: new Uint8Array(y.length),
    points: [[1]],
    cells: 1,
  });
  const [mean, logSd] = [model.atMode([1]), model.logSd];
  const failed = new Set(series.filter((_, i) => censored[i] !== 1)).size;
  return {
    mean: mean.value,
    meanVariance: mean.variance,
    logSd: logSd.value,
    logSdVariance: logSd.variance,
    correlation: model.correlation,
    degrees: failed - 1,
  };
}
