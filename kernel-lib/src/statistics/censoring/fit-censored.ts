import { chiSquared } from "../distributions/chi-squared";
import { normal } from "../distributions/normal";
import type { CannotTell } from "../result";
import { clusterSandwich, informationAt } from "./censored-information";
import { maximiseCensored, NoMaximumError, type CensoredMaximum } from "./censored-likelihood";
import { profileOfQuantile, profileOfSigma, whereProfileFalls, type CensoredSample } from "./censored-profile";
import { cannotTellFrom, gatherCensored, type CensoredInput, type GatheredSample } from "./censored-sample";
import { describeFit, type CensoredStatement } from "./censored-words";
import { lawOf, type CensoredDistribution, type LocationScaleLaw } from "./location-scale-law";
import { momentsOf, parametersOf, type CensoredParameter } from "./censored-parameters";

export interface FitCensoredInput extends CensoredInput {
  readonly distribution: CensoredDistribution;
  /** Confidence of the intervals; default 0.95. */
  readonly confidence?: number;
}

export interface CensoredFit extends CensoredStatement {
  readonly status: "ok";
  readonly distribution: CensoredDistribution;
  readonly censoredCount: number;
  readonly failures: number;
  readonly confidence: number;
  /** Location and scale of the law: of the values (normal) or of their natural logarithms (lognormal, Weibull). */
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
 * Maximum likelihood of a right-censored sample: a failure adds ln f(y), a lower bound adds ln S(y).
 *
 * normal: y ~ N(mean, SD); lognormal: ln y ~ N(mean of ln, SD of ln); Weibull: S(y) = exp(-(y / eta)^k).
 * The SD is the maximum-likelihood one (divisor n without censoring). Intervals are by profile
 * likelihood; with clusters they are Wald with the cluster-robust standard error instead.
 * The censoring must tell nothing beyond the bound (a bar ruptures in the grip at a load that has
 * nothing to do with the bond it still had).
 *
 * @returns the fit, or "cannot tell" with what is needed (all censored, fewer than two different failures, ...)
 * @throws RangeError for columns of different length or a confidence outside 0 to 1
 * @example fitCensored({ values: [92, 101, 88, 110], censored: [false, true, false, true], distribution: "lognormal" })
 */
export function fitCensored(input: FitCensoredInput): CensoredFit | CannotTell {
  const confidence = input.confidence ?? 0.95;
  if (!(confidence > 0 && confidence < 1)) throw new RangeError(`fitCensored: confidence is ${confidence}, expected a share between 0 and 1`);
  const gathered = gatherCensored(input, input.distribution);
  const method = `Maximum likelihood, right-censored ${input.distribution}`;
  if (gathered.lack !== null) return cannotTellFrom(gathered, method, gathered.lack);
  const law = lawOf(input.distribution);
  try {
    return fitted(gathered, input.distribution, law, confidence);
  } catch (error) {
    if (error instanceof NoMaximumError) return cannotTellFrom(gathered, method, { reason: "no maximum", needed: `failures that the likelihood can tell a scatter from (${error.message})` });
    throw error;
  }
}

function fitted(gathered: GatheredSample, distribution: CensoredDistribution, law: LocationScaleLaw, confidence: number): CensoredFit {
  const { sample, clusters } = gathered;
  const maximum = maximumOf(sample, law);
  const location = maximum.coefficients[0]!;
  const scale = maximum.sigma;
  const information = informationAt({ ...sample, columns: [new Float64Array(sample.y.length).fill(1)] }, law, maximum);
  const robust = clusters === null ? null : clusterSandwich(information, clusters);
  const covariance = robust?.covariance ?? information.covariance;
  const moments = momentsOf(distribution, location, scale);
  const parameters = parametersOf({ distribution, location, scale, covariance, confidence, clusterCount: robust?.count ?? null, ...profileIntervals(sample, law, maximum, covariance, confidence) });
  return {
    status: "ok", distribution, location, scale, covariance, confidence, logLikelihood: valuesLogLikelihood(gathered, law, maximum), ...moments, parameters,
    failures: gathered.failures, censoredCount: gathered.values.length - gathered.failures,
    ...describeFit({ gathered, distribution, moments, parameters, clusterCount: robust?.count ?? null, confidence }),
    quantile: (p) => {
      const q = location + scale * law.quantile(p);
      return law.onLogs ? Math.exp(q) : q;
    },
  };
}

/** The maximum for a sample without covariates, started from the spread of all values. */
export function maximumOf(sample: CensoredSample, law: LocationScaleLaw): CensoredMaximum {
  const n = sample.y.length;
  let mean = 0;
  for (let i = 0; i < n; i += 1) mean += sample.y[i]! / n;
  let variance = 0;
  for (let i = 0; i < n; i += 1) variance += (sample.y[i]! - mean) ** 2 / n;
  // Centred and scaled to keep the search well conditioned whatever the units are.
  const unit = variance > 0 ? Math.sqrt(variance) : 1;
  const standard = { y: sample.y.map((v) => (v - mean) / unit), censored: sample.censored, columns: [new Float64Array(n).fill(1)] };
  const at = maximiseCensored(standard, law, { coefficients: [0], sigma: 1 });
  const failures = sample.censored.reduce((count, c) => count + (c === 1 ? 0 : 1), 0);
  return { coefficients: Float64Array.of(mean + unit * at.coefficients[0]!), sigma: unit * at.sigma, logLikelihood: at.logLikelihood - failures * Math.log(unit), iterations: at.iterations };
}

function profileIntervals(sample: CensoredSample, law: LocationScaleLaw, at: CensoredMaximum, covariance: Float64Array, confidence: number): { locationInterval: [number, number]; scaleInterval: [number, number] } {
  const target = at.logLikelihood - chiSquared(1).quantile(confidence) / 2;
  const z = normal().quantile((1 + confidence) / 2);
  const location = at.coefficients[0]!;
  const stepLocation = z * Math.sqrt(covariance[0]!);
  const stepLog = Math.max(z * Math.sqrt(covariance[3]!), 1e-8);
  const ofLocation = (x: number): number => profileOfQuantile(sample, law, x, 0, at.sigma).value;
  const ofLogScale = (x: number): number => profileOfSigma(sample, law, Math.exp(x), location).value;
  return {
    locationInterval: [whereProfileFalls(ofLocation, location, -stepLocation, target), whereProfileFalls(ofLocation, location, stepLocation, target)],
    scaleInterval: [Math.exp(whereProfileFalls(ofLogScale, Math.log(at.sigma), -stepLog, target)), Math.exp(whereProfileFalls(ofLogScale, Math.log(at.sigma), stepLog, target))],
  };
}

/** ln L of the values themselves: logs add -ln y for each failure, so that distributions can be compared. */
function valuesLogLikelihood(gathered: GatheredSample, law: LocationScaleLaw, at: CensoredMaximum): number {
  if (!law.onLogs) return at.logLikelihood;
  return gathered.sample.y.reduce((sum, logValue, i) => sum - (gathered.sample.censored[i] === 1 ? 0 : logValue), at.logLikelihood);
}
