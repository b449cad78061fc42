import { maximumOf } from "../censoring/censored-maximum";
import type { GatheredSample } from "../censoring/censored-sample";
import { lawOf } from "../censoring/location-scale-law";
import { asSingleTests } from "./all-but-equal";
import { weightedFits } from "./correlation-weights";
import type { FitAtCorrelation } from "./fit-at-correlation";
import { likeliestFit } from "./likeliest-correlation";
import type { WeightedFit } from "./mixture-bound";
import { layoutOf, seriesOf } from "./series-of-tests";

/** Fits over the correlation in standardised values, and the way back to y. */
export interface LawBySeries {
  readonly fits: readonly WeightedFit[];
  readonly likeliest: FitAtCorrelation;
  /** Likeliest intraclass correlation; 1 where the tests of a series are all but equal and count as one. */
  readonly correlation: number;
  readonly allButEqual: boolean;
  readonly centre: number;
  readonly unit: number;
}

/**
 * Fits of tests in series over the correlation, the values centred and scaled to keep the search well conditioned whatever the units are.
 * @throws NoMaximumError where the likelihood has no maximum
 */
export function lawBySeries({ sample }: Pick<GatheredSample, "sample">, named: readonly (string | number)[]): LawBySeries {
  const independent = maximumOf(sample, lawOf("normal"));
  const [centre, unit] = [independent.coefficients[0] ?? NaN, independent.sigma];
  const all = seriesOf({ y: sample.y.map((value) => (value - centre) / unit), censored: sample.censored }, named);
  const single = asSingleTests(all);
  const series = single ?? all;
  const fits = weightedFits(series, { mean: 0, sd: 1 });
  const likeliest = likeliestFit(series, fits, layoutOf(series).typicalSize);
  return { fits, likeliest, correlation: single === null ? likeliest.correlation : 1, allButEqual: single !== null, centre, unit };
}
