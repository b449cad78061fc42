import type { CensoredSample } from "../censoring/censored-profile";
import { lawBySeries } from "./law-by-series";
import { worthOf } from "./mixture-bound";

/** Location and scatter of a single test of any series, each with the variance of its estimate. */
export interface EstimatesBySeries {
  readonly mean: number;
  readonly meanVariance: number;
  readonly logSd: number;
  readonly logSdVariance: number;
  /** Likeliest intraclass correlation. */
  readonly correlation: number;
  /** Series with at least one failure, less one. */
  readonly degrees: number;
}

/**
 * Mean and ln SD of normal tests in series, lower bounds counted as such (model of `characteristicBySeries`): the mean
 * at the likeliest correlation with the variance of the observed information there, freed of the bias of maximum likelihood; ln SD
 * averaged over the correlation by its weights, its variance with the scatter over the correlation.
 *
 * @throws NoMaximumError where the likelihood has no maximum
 */
export function estimatesBySeries(sample: CensoredSample, series: readonly (string | number)[]): EstimatesBySeries {
  const { fits, likeliest, correlation, centre, unit } = lawBySeries({ sample }, series);
  const [mm, ms, ss] = likeliest.information;
  const enlarged = (worthOf(likeliest).sd / likeliest.sd) ** 2;
  const parts = fits.map(({ fit, weight }) => {
    const [a, b, c] = fit.information;
    return { weight, logSd: Math.log(worthOf(fit).sd), variance: a / (a * c - b * b) };
  });
  const over = (of: (part: (typeof parts)[number]) => number): number => parts.reduce((sum, part) => sum + part.weight * of(part), 0);
  const logSd = over((part) => part.logSd);
  return {
    mean: centre + unit * likeliest.mean, meanVariance: (unit * unit * enlarged * ss) / (mm * ss - ms * ms),
    logSd: logSd + Math.log(unit), logSdVariance: over((part) => part.variance + (part.logSd - logSd) ** 2),
    correlation, degrees: new Set(series.filter((_, i) => sample.censored[i] !== 1)).size - 1,
  };
}
