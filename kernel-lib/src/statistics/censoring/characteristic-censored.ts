import { chiSquared } from "../distributions/chi-squared";
import { createRandom, type Random } from "../random";
import { percent, significant } from "../reading";
import type { CannotTell, CannotTellReason } from "../result";
import { toleranceFactor } from "../tolerance/tolerance-factor";
import { informationAt } from "./censored-information";
import { NoMaximumError, type CensoredMaximum } from "./censored-likelihood";
import { multiplier } from "./censored-parameters";
import { profileOfQuantile, whereProfileFalls, type CensoredSample } from "./censored-profile";
import { cannotTellFrom, gatherCensored, type CensoredInput } from "./censored-sample";
import { basisWords, censoringWarnings, type CensoredStatement } from "./censored-words";
import { maximumOf } from "./censored-maximum";
import { clusterCovariance } from "./cluster-covariance";
import { clusterJackknife, type ClusterJackknife } from "./cluster-jackknife";
import { lawOf, type CensoredDistribution, type LocationScaleLaw } from "./location-scale-law";
import { stepsOf } from "./kaplan-meier";
import { limitsAbove } from "./limits-above";

export { limitAbove } from "./limits-above";

/**
 * How the lower bound of the fractile is made.
 * - `exact`: noncentral t; only for an uncensored normal or lognormal sample.
 * - `likelihood`: profile likelihood, one-sided. Large-sample: too high a value for few tests.
 * - `pivot_bootstrap`: bootstrap of (estimate - fractile) / scale under the fitted law and the
 *   observed censoring; without censoring it is the exact factor but for its own noise.
 * - `clusters`: the exact factor for as many independent tests as the series are worth, from
 *   leaving out one series at a time; for a Weibull law Wald with that standard error, t on series
 *   - 1.
 */
export type CharacteristicMethod = "exact" | "likelihood" | "pivot_bootstrap" | "clusters";

export interface CharacteristicCensoredInput extends CensoredInput {
  readonly distribution: CensoredDistribution;
  /** Fractile to be bounded from below; default 0.05. */
  readonly fractile?: number;
  /** One-sided confidence; default 0.90. */
  readonly confidence?: number;
  /** Default: `clusters` with clusters, `exact` where it applies, else `pivot_bootstrap`. */
  readonly method?: CharacteristicMethod;
  readonly resamples?: number;
  readonly seed?: number | string;
}

export interface CharacteristicCensored extends CensoredStatement {
  readonly status: "ok";
  /** Lower bound of the fractile with the stated confidence, in the units of the values. */
  readonly characteristic: number;
  /** Maximum-likelihood estimate of the fractile itself. */
  readonly fractileEstimate: number;
  /**
   * Location less this many scales gives the characteristic value (on logs for lognormal and
   * Weibull).
   */
  readonly factor: number;
  readonly fractile: number;
  readonly confidence: number;
  readonly failures: number;
  readonly censoredCount: number;
}

/**
 * Characteristic value (lower confidence bound of a fractile) of a right-censored sample.
 *
 * @returns the value, or "cannot tell" with what is needed
 * @throws RangeError for fractile or confidence outside 0 to 1, or columns of different length
 * @example characteristicCensored({ values, censored, distribution: "lognormal" }).reading
 */
export function characteristicCensored(
  input: CharacteristicCensoredInput,
): CharacteristicCensored | CannotTell {
  const fractile = input.fractile ?? 0.05;
  const confidence = input.confidence ?? 0.9;
  for (const [name, value] of [
    ["fractile", fractile],
    ["confidence", confidence],
  ] as const) {
    if (!(value > 0 && value < 1))
      throw new RangeError(
        `characteristicCensored: ${name} is ${value}, expected a share between 0 and 1`,
      );
  }
  const gathered = gatherCensored(input, input.distribution);
  const uncensored =
    gathered.failures === gathered.values.length && input.distribution !== "weibull";
  const method =
    input.method ??
    (input.clusters !== undefined ? "clusters" : uncensored ? "exact" : "pivot_bootstrap");
  const statement = {
    n: gathered.values.length,
    setAside: gathered.setAside,
    method: `Characteristic value, right-censored ${input.distribution}, ${METHOD_WORDS[method]}`,
  };
  const refuse = (reason: CannotTellReason, needed: string): CannotTell =>
    cannotTellFrom(gathered, statement.method, { reason, needed });
  if (gathered.lack !== null) return cannotTellFrom(gathered, statement.method, gathered.lack);
  if (method === "exact" && !uncensored)
    return refuse(
      "method does not apply",
      "an uncensored normal or lognormal sample for the exact factor",
    );
  if (method === "clusters" && gathered.clusters === null)
    return refuse("method does not apply", "the series of each row for a bound from series");
  const law = lawOf(input.distribution);
  const z = law.quantile(fractile);
  try {
    const maximum = maximumOf(gathered.sample, law);
    const location = maximum.coefficients[0]!;
    const bound = boundBy(method, {
      sample: gathered.sample,
      law,
      maximum,
      z,
      fractile,
      confidence,
      weibull: input.distribution === "weibull",
      clusters: gathered.clusters,
      resamples: input.resamples ?? 2000,
      random: createRandom(input.seed ?? "characteristic value"),
    });
    if (bound === null)
      return refuse(
        "too many failed resamples",
        "more failures (over a tenth of the resamples hold fewer than two, so the spread of the estimate cannot be told)",
      );
    if (!Number.isFinite(bound))
      return refuse(
        "no finite bound",
        "more failures or less confidence (the likelihood does not fall far enough on the low side)",
      );
    const back = (x: number): number => (law.onLogs ? Math.exp(x) : x);
    const characteristic = back(bound);
    const warnings = censoringWarnings(gathered);
    if (method === "likelihood" && gathered.failures < 20)
      warnings.push(
        "The profile-likelihood bound is a large-sample one and lies too high for few failures; prefer the pivot bootstrap",
      );
    if (method === "clusters")
      warnings.push(
        "The bound from series is approximate: with few series that differ much it holds less often than its confidence says",
      );
    if (characteristic <= 0)
      warnings.push(
        "The bound is not above 0: a lognormal or Weibull law, or more tests, would be needed for a usable value",
      );
    return {
      status: "ok",
      ...statement,
      warnings,
      characteristic,
      fractileEstimate: back(location + z * maximum.sigma),
      factor: (location - bound) / maximum.sigma,
      fractile,
      confidence,
      failures: gathered.failures,
      censoredCount: gathered.values.length - gathered.failures,
      assumptions: [
        `the values that would have failed follow a ${input.distribution} distribution`,
        "why a test stopped early says nothing of the load it would still have carried in this mode",
        method === "clusters"
          ? "series are independent; values within one may share an error"
          : "values are independent",
      ],
      reading: `With ${percent(confidence)} confidence the ${percent(fractile)} fractile is at least ${significant(characteristic)} (${basisWords(gathered)}; ${METHOD_WORDS[method]}).`,
    };
  } catch (error) {
    if (error instanceof NoMaximumError)
      return refuse(
        "no maximum",
        `failures that the likelihood can tell a scatter from (${error.message})`,
      );
    throw error;
  }
}

const METHOD_WORDS: Record<CharacteristicMethod, string> = {
  exact: "exact noncentral-t factor",
  likelihood: "profile likelihood",
  pivot_bootstrap: "bootstrap of the pivot",
  clusters: "leaving out one series at a time",
};

interface BoundQuestion {
  readonly sample: CensoredSample;
  readonly law: LocationScaleLaw;
  readonly maximum: CensoredMaximum;
  readonly z: number;
  readonly fractile: number;
  readonly confidence: number;
  /** The noncentral t factor is of normal laws only. */
  readonly weibull: boolean;
  readonly clusters: readonly (string | number)[] | null;
  readonly resamples: number;
  readonly random: Random;
}

function boundBy(method: CharacteristicMethod, question: BoundQuestion): number | null {
  const { sample, law, maximum, z, confidence } = question;
  const n = sample.y.length;
  const estimate = maximum.coefficients[0]! + z * maximum.sigma;
  const information = (): ReturnType<typeof informationAt> =>
    informationAt({ ...sample, columns: [new Float64Array(n).fill(1)] }, law, maximum);
  /** Standard error of location + z sigma from the covariance of (location, ln sigma). */
  const standardError = (c: Float64Array): number =>
    Math.sqrt(
      Math.max(0, c[0]! + 2 * z * maximum.sigma * c[1]! + (z * maximum.sigma) ** 2 * c[3]!),
    );
  switch (method) {
    case "exact":
      return (
        maximum.coefficients[0]! -
        toleranceFactor({ n, fractile: question.fractile, confidence }) *
          maximum.sigma *
          Math.sqrt(n / (n - 1))
      );
    case "clusters": {
      const jackknife = question.weibull ? null : clusterJackknife(sample, law, question.clusters!);
      if (jackknife !== null)
        return boundFromSeries(maximum, jackknife, n, question.fractile, confidence);
      const robust = clusterCovariance(sample, law, information(), question.clusters!, "jackknife");
      return estimate - multiplier(1 - confidence, robust.count) * standardError(robust.covariance);
    }
    case "likelihood": {
      if (confidence === 0.5) return estimate;
      const drop = chiSquared(1).quantile(Math.abs(2 * confidence - 1)) / 2;
      const step = (confidence > 0.5 ? -1 : 1) * standardError(information().covariance);
      return whereProfileFalls(
        (q) => profileOfQuantile(sample, law, q, z, maximum.sigma).value,
        estimate,
        step,
        maximum.logLikelihood - drop,
      );
    }
    case "pivot_bootstrap": {
      const pivot = pivotQuantile(question, estimate);
      return pivot === null ? null : estimate - pivot * maximum.sigma;
    }
  }
}

/**
 * location − K σ with the exact factor of as many independent tests, and as many degrees of freedom
 * of the SD, as the series are worth: n' = σ²/var(location), ν' = 1/(2 var(ln σ)), variances by
 * leaving out one series at a time, both held to what G series and n tests can give; σ is freed of
 * its first-order bias. Simulated coverage: see the tests.
 */
function boundFromSeries(
  maximum: CensoredMaximum,
  { covariance, count, meanLogScale }: ClusterJackknife,
  n: number,
  fractile: number,
  confidence: number,
): number {
  const sigma = Math.exp(count * Math.log(maximum.sigma) - (count - 1) * meanLogScale);
  const worth = Math.max(1, Math.min(n, (sigma * sigma) / covariance[0]!));
  const degreesOfFreedom = Math.max(count - 1, Math.min(n - 1, 1 / (2 * covariance[3]!)));
  return (
    maximum.coefficients[0]! -
    toleranceFactor({ n: worth, degreesOfFreedom, fractile, confidence }) * sigma
  );
}

/**
 * Quantile of (estimate* - fractile) / sigma* over resamples from the fitted law. Each resample is
 * censored as the data were (Hjort's conditional bootstrap): a censored row keeps its limit; for a
 * failed row the limit it would have met is drawn from the Kaplan-Meier estimate of the limits
 * above its value. Null when more than a tenth fail.
 */
function pivotQuantile(question: BoundQuestion, estimate: number): number | null {
  const { sample, law, maximum, z, random } = question;
  const n = sample.y.length;
  const limits = stepsOf(
    sample.y,
    sample.censored.map((c) => 1 - c),
    1,
  ).filter((s) => s.failures > 0);
  const limitOf = Array.from(sample.y, (value) => limitsAbove(limits, value));
  const y = new Float64Array(n);
  const censored = new Uint8Array(n);
  const pivots: number[] = [];
  for (let b = 0; b < question.resamples; b += 1) {
    for (let i = 0; i < n; i += 1) {
      const value = maximum.coefficients[0]! + maximum.sigma * law.quantile(random.uniform());
      const limit = sample.censored[i] === 1 ? sample.y[i]! : limitOf[i]!(random.uniform());
      censored[i] = value > limit ? 1 : 0;
      y[i] = Math.min(value, limit);
    }
    const pivot = pivotOf({ y, censored }, law, z, estimate, maximum);
    if (pivot !== null) pivots.push(pivot);
  }
  if (pivots.length < 0.9 * question.resamples) return null;
  pivots.sort((a, b) => a - b);
  const position = Math.min(
    pivots.length - 1,
    Math.max(0, (pivots.length + 1) * question.confidence - 1),
  );
  const low = Math.floor(position);
  const high = Math.min(low + 1, pivots.length - 1);
  return pivots[low]! + (position - low) * (pivots[high]! - pivots[low]!);
}

function pivotOf(
  sample: CensoredSample,
  law: LocationScaleLaw,
  z: number,
  truth: number,
  near: CensoredMaximum,
): number | null {
  let failures = 0;
  for (let i = 0; i < sample.y.length && failures < 2; i += 1)
    if (sample.censored[i] !== 1) failures += 1;
  if (failures < 2) return null;
  try {
    const at = maximumOf(sample, law, near);
    return (at.coefficients[0]! + z * at.sigma - truth) / at.sigma;
  } catch (error) {
    if (error instanceof NoMaximumError) return null;
    throw error;
  }
}
