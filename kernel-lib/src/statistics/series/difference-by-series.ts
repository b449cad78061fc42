import { NoMaximumError } from "../censoring/censored-likelihood";
import { maximumOf } from "../censoring/censored-maximum";
import type { CensoredSample } from "../censoring/censored-profile";
import { lawOf } from "../censoring/location-scale-law";
import { asSingleTests } from "./all-but-equal";
import { correlationAt } from "./correlation-weights";
import { fitAtCorrelation, type FitAtCorrelation } from "./fit-at-correlation";
import { layoutOf, seriesOf, type SeriesOfTests } from "./series-of-tests";

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
  /** Restricted-likelihood estimate of the intraclass correlation; 1 where the tests of a series are all but equal. */
  readonly correlation: number;
}

/** Step of the difference, in SD, from which slope and curvature are taken. */
const STEP = 0.02;
/** Slope over SE at which the search ends, and at which it does after ten steps: fits with lower bounds carry noise of about 1e-6. */
const [FINE, COARSE] = [1e-5, 1e-3];
/** Values of t = ln(1 + n₀ ρ/(1 − ρ)) from which the search for the correlation starts. */
const GRID = [0, 0.25, 0.5, 1, 1.5, 2, 3, 4, 6, 8, 11, 14];
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Difference of the means of two classes of tests in series, lower bounds treated as right-censored:
 * y_ijk = μ_i + b_ij + e_ijk, b_ij ~ N(0, ρ σ²) one a series, e_ijk ~ N(0, (1 − ρ) σ²) one a test, σ and ρ the same in both classes.
 *
 * For each ρ the difference maximizes the likelihood integrated over mean and ln σ (Laplace's method); its variance is −1/curvature
 * there, times (n' − 1)/(n' − 2), n' the number of failures that the information on ln σ is worth. ρ maximizes the likelihood integrated over
 * the difference as well, which without lower bounds is that of restricted maximum likelihood. t = estimate/SE on
 * (series with a failure − 2) degrees of freedom: without lower bounds and with series of equal size it is the t of the series
 * means where MS_series ≥ MS_within, and smaller elsewhere.
 *
 * Limits: normal values; a series that has tests in both classes counts as another in each.
 *
 * @throws NoMaximumError where a likelihood has no maximum, such as for failures that do not scatter
 * @throws RangeError for fewer than two series with a failure in a class
 * @example differenceBySeries({ sample: steel, series }, { sample: glass, series: theirs }).estimate
 */
export function differenceBySeries(a: ClassInSeries, b: ClassInSeries): DifferenceBySeries {
  const [ofA, ofB] = [ownLaw(a.sample), ownLaw(b.sample)];
  const unit = Math.sqrt((ofA.sd ** 2 + ofB.sd ** 2) / 2);
  if (!(unit > 0)) throw new NoMaximumError("The failures of each class do not scatter");
  // Standardized about the own mean of each class: what is sought is near 0.
  const standard = ({ sample, series }: ClassInSeries, centre: number): SeriesOfTests[] =>
    seriesOf({ y: sample.y.map((value) => (value - centre) / unit), censored: sample.censored }, series);
  const [own, other] = [standard(a, ofA.mean), standard(b, ofB.mean)];
  const failed = [own, other].map((all) => layoutOf(all).groups);
  if (Math.min(...failed) < 2) throw new RangeError(`differenceBySeries: ${failed.join(" and ")} series with a failure, expected at least 2 in each class`);
  const single = asSingleTests([...own, ...other]);
  const all = single ?? [...own, ...other];
  const layout = layoutOf(all);
  const at = (t: number, from?: AtCorrelation): AtCorrelation => atCorrelation(all, own.length, correlationAt(t, layout.typicalSize), from);
  const found = layout.failures === layout.groups ? at(0) : likeliest(at);
  return {
    estimate: ofB.mean - ofA.mean + unit * found.difference, standardError: unit * Math.sqrt(found.variance),
    degreesOfFreedom: layout.groups - 2, correlation: single === null ? found.fit.correlation : 1,
  };
}

/** Mean and SD of one class without its series; failures that do not scatter have their mean and no SD. */
function ownLaw(sample: CensoredSample): { readonly mean: number; readonly sd: number } {
  try {
    const { coefficients, sigma } = maximumOf(sample, lawOf("normal"));
    return { mean: coefficients[0] ?? NaN, sd: sigma };
  } catch (error) {
    if (!(error instanceof NoMaximumError)) throw error;
    const failed = sample.y.filter((_, i) => sample.censored[i] !== 1);
    return { mean: failed.reduce((sum, value) => sum + value / failed.length, 0), sd: 0 };
  }
}

interface AtCorrelation {
  readonly fit: FitAtCorrelation;
  readonly difference: number;
  readonly variance: number;
  readonly logIntegrated: number;
}

function atCorrelation(all: readonly SeriesOfTests[], own: number, rho: number, from?: AtCorrelation): AtCorrelation {
  let difference = from?.difference ?? 0;
  let start: { readonly mean: number; readonly sd: number } = from?.fit ?? { mean: 0, sd: 1 };
  const fitAt = (d: number): FitAtCorrelation => fitAtCorrelation(all.map((one, i) => (i < own ? one : shifted(one, d))), rho, start);
  for (let step = 0; step < 50; step += 1) {
    const [below, fit, above] = [fitAt(difference - STEP), fitAt(difference), fitAt(difference + STEP)];
    start = fit;
    const slope = (above.logIntegrated - below.logIntegrated) / (2 * STEP);
    const curvature = (2 * fit.logIntegrated - above.logIntegrated - below.logIntegrated) / STEP ** 2;
    if (!(curvature > 0)) throw new NoMaximumError("The likelihood of the difference of two classes has no maximum near their own means");
    if (Math.abs(slope) < (step < 10 ? FINE : COARSE) * Math.sqrt(curvature)) {
      const [mm, ms, ss] = fit.information;
      const worth = (ss - (ms * ms) / mm) / 2;
      if (!(worth > 2)) throw new NoMaximumError("Too few failures for the scatter of two classes");
      return { fit, difference, variance: (worth - 1) / (worth - 2) / curvature, logIntegrated: fit.logIntegrated - Math.log(curvature) / 2 };
    }
    difference += Math.max(-1, Math.min(1, slope / curvature));
  }
  throw new NoMaximumError("The likelihood of the difference of two classes has no maximum that the search could reach");
}

function shifted(one: SeriesOfTests, by: number): SeriesOfTests {
  return { ...one, mean: one.mean - by, limits: one.limits.map((limit) => limit - by) };
}

/** The highest integrated likelihood over the correlation: the best of a grid, then by golden section between its neighbors. */
function likeliest(at: (t: number, from?: AtCorrelation) => AtCorrelation): AtCorrelation {
  const fits: AtCorrelation[] = [];
  for (const t of GRID) {
    const fit = orNone(() => at(t, fits[fits.length - 1]), fits.length > 0);
    if (fit === null) break;
    fits.push(fit);
  }
  const best = fits.reduce((high, fit, i) => (fit.logIntegrated > fits[high]!.logIntegrated ? i : high), 0);
  const highest = fits[best]!;
  let [low, high] = [GRID[Math.max(0, best - 1)]!, GRID[Math.min(fits.length - 1, best + 1)]!];
  const value = (t: number): AtCorrelation => at(t, highest);
  let [left, right] = [value(high - GOLDEN * (high - low)), value(low + GOLDEN * (high - low))];
  while (high - low > 1e-5) {
    if (left.logIntegrated >= right.logIntegrated) {
      [high, right] = [low + GOLDEN * (high - low), left];
      left = value(high - GOLDEN * (high - low));
    } else {
      [low, left] = [high - GOLDEN * (high - low), right];
      right = value(low + GOLDEN * (high - low));
    }
  }
  const found = left.logIntegrated >= right.logIntegrated ? left : right;
  // At the edge the search only comes near to 0; the fit there is at hand.
  return found.logIntegrated > highest.logIntegrated ? found : highest;
}

/** Far from the likeliest correlation a fit may not exist. */
function orNone(fit: () => AtCorrelation, mayLack: boolean): AtCorrelation | null {
  try {
    return fit();
  } catch (error) {
    if (error instanceof NoMaximumError && mayLack) return null;
    throw error;
  }
}
