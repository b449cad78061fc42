import { chiSquared } from "../distributions/chi-squared";
import { normal } from "../distributions/normal";
import { requireShares, type NotEstimable } from "../result";
import { informationAt } from "./censored-information";
import { NoMaximumError, type CensoredMaximum } from "./censored-likelihood";
import { maximumOf } from "./censored-maximum";
import {
  profileOfQuantile,
  profileOfSigma,
  whereProfileFalls,
  type CensoredSample,
} from "./censored-profile";
import {
  notEstimableFrom,
  gatherCensored,
  type CensoredInput,
  type GatheredSample,
} from "./censored-sample";
import { describeFit, type CensoredStatement } from "./censored-words";
import { lawOf, type CensoredDistribution, type LocationScaleLaw } from "./location-scale-law";
import { clusterCovariance, type ClusterMethod } from "./cluster-covariance";
import { momentsOf, parametersOf, type CensoredParameter } from "./censored-parameters";

export interface FitCensoredInput extends CensoredInput {
  readonly distribution: CensoredDistribution;
  /** Confidence of the intervals; default 0.95. */
  readonly confidence?: number;
  /**
   * With clusters: leave out one series at a time (default, safer for few series), or the sandwich
   * of the scores.
   */
  readonly clusterMethod?: ClusterMethod;
}

export interface CensoredFit extends CensoredStatement {
  readonly status: "ok";
  readonly distribution: CensoredDistribution;
  readonly censoredCount: number;
  readonly failures: number;
  readonly confidence: number;
  /**
   * Location and scale of the law: of the values (normal) or of their natural logarithms
   * (lognormal, Weibull).
   */
  readonly location: number;
  readonly scale: number;
  /** Covariance of (location, ln scale) by rows, 2 x 2; cluster-robust when clusters are given. */
  readonly covariance: Float64Array;
  readonly logLikelihood: number;
  /** Mean, SD and COV of the fitted distribution, in the units of the values. */
  readonly mean: number;
  readonly sd: number;
  readonly cov: number;
  /** The distribution's own parameters, with standard errors and intervals. */
  readonly parameters: readonly CensoredParameter[];
  /** The fitted quantile at probability p, 0 < p < 1, in the units of the values. */
  quantile(p: number): number;
}

/**
 * Maximum likelihood of a right-censored sample: a failure adds ln f(y), a lower bound adds ln
 * S(y).
 *
 * normal: y ~ N(mean, SD); lognormal: ln y ~ N(mean of ln, SD of ln); Weibull: S(y) = exp(-(y /
 * eta)^k). The SD is the maximum-likelihood one (divisor n without censoring). Intervals are by
 * profile likelihood; with clusters they are Wald with t on (series − 1) and a standard error from
 * omitting one series at a time. With three or four series even that holds the truth a little
 * less often than it says (measured in the tests). The censoring must tell nothing beyond the bound
 * (a bar ruptures in the grip at a load that has nothing to do with the bond it still had).
 *
 * @returns the fit, or "cannot be estimated" with what is needed (all censored, fewer than two
 *   different failures, ...)
 * @throws RangeError for columns of different length or a confidence outside 0 to 1
 * @example
 * fitCensored({ values: [92, 101, 88, 110], censored: [false, true, false, true], distribution: "lognormal" })
 */
export function fitCensored(input: FitCensoredInput): CensoredFit | NotEstimable {
  const confidence = input.confidence ?? 0.95;
  requireShares("fitCensored", { confidence });
  const gathered = gatherCensored(input, input.distribution);
  const method = `Maximum likelihood, right-censored ${input.distribution}`;
  if (gathered.lack !== null) return notEstimableFrom(gathered, method, gathered.lack);
  const law = lawOf(input.distribution);
  try {
    return fitted(
      gathered,
      input.distribution,
      law,
      confidence,
      input.clusterMethod ?? "jackknife",
    );
  } catch (error) {
    if (error instanceof NoMaximumError)
      return notEstimableFrom(gathered, method, {
        reason: "no maximum",
        needed: `failures from which the likelihood can estimate the scatter (${error.message})`,
      });
    throw error;
  }
}

function fitted(
  gathered: GatheredSample,
  distribution: CensoredDistribution,
  law: LocationScaleLaw,
  confidence: number,
  clusterMethod: ClusterMethod,
): CensoredFit {
  const { sample, clusters } = gathered;
  const maximum = maximumOf(sample, law);
  const location = maximum.coefficients[0]!;
  const scale = maximum.sigma;
  const information = informationAt(
    { ...sample, columns: [new Float64Array(sample.y.length).fill(1)] },
    law,
    maximum,
  );
  const robust =
    clusters === null ? null : clusterCovariance(sample, law, information, clusters, clusterMethod);
  const covariance = robust?.covariance ?? information.covariance;
  const moments = momentsOf(distribution, location, scale);
  const parameters = parametersOf({
    distribution,
    location,
    scale,
    covariance,
    confidence,
    clusterCount: robust?.count ?? null,
    ...profileIntervals(sample, law, maximum, covariance, confidence),
  });
  return {
    status: "ok",
    distribution,
    location,
    scale,
    covariance,
    confidence,
    logLikelihood: valuesLogLikelihood(gathered, law, maximum),
    ...moments,
    parameters,
    failures: gathered.failures,
    censoredCount: gathered.values.length - gathered.failures,
    ...describeFit({ gathered, distribution, moments, parameters, robust, confidence }),
    quantile: (p) => {
      const q = location + scale * law.quantile(p);
      return law.onLogs ? Math.exp(q) : q;
    },
  };
}

function profileIntervals(
  sample: CensoredSample,
  law: LocationScaleLaw,
  at: CensoredMaximum,
  covariance: Float64Array,
  confidence: number,
): { locationInterval: [number, number]; scaleInterval: [number, number] } {
  const target = at.logLikelihood - chiSquared(1).quantile(confidence) / 2;
  const z = normal().quantile((1 + confidence) / 2);
  const location = at.coefficients[0]!;
  const stepLocation = z * Math.sqrt(covariance[0]!);
  const stepLog = Math.max(z * Math.sqrt(covariance[3]!), 1e-8);
  const ofLocation = (x: number): number => profileOfQuantile(sample, law, x, 0, at.sigma).value;
  const ofLogScale = (x: number): number =>
    profileOfSigma(sample, law, Math.exp(x), location).value;
  return {
    locationInterval: [
      whereProfileFalls(ofLocation, location, -stepLocation, target),
      whereProfileFalls(ofLocation, location, stepLocation, target),
    ],
    scaleInterval: [
      Math.exp(whereProfileFalls(ofLogScale, Math.log(at.sigma), -stepLog, target)),
      Math.exp(whereProfileFalls(ofLogScale, Math.log(at.sigma), stepLog, target)),
    ],
  };
}

/**
 * ln L of the values themselves: logs add -ln y for each failure, so that distributions can be
 * compared.
 */
function valuesLogLikelihood(
  gathered: GatheredSample,
  law: LocationScaleLaw,
  at: CensoredMaximum,
): number {
  if (!law.onLogs) return at.logLikelihood;
  return gathered.sample.y.reduce(
    (sum, logValue, i) => sum - (gathered.sample.censored[i] === 1 ? 0 : logValue),
    at.logLikelihood,
  );
}
