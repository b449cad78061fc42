import { percent, significant } from "../reading";
import type { Account, NotEstimable, Excluded } from "../result";
import { notEstimable, cleanSample } from "../result";
import { orderStatisticBound } from "../tolerance/order-statistic-bound";
import { knownSdToleranceFactor } from "../tolerance/known-sd-factor";
import { predictionFactor } from "../tolerance/prediction-factor";
import { requireQuestion, toleranceFactor } from "../tolerance/tolerance-factor";
import { isNoSpread, mean, standardDeviation } from "./moments";

/** How a characteristic value is to be derived. */
export interface CharacteristicOptions {
  /** Fractile, default 0.05. */
  fractile?: number;
  /** Confidence that the fractile is not lower, default 0.90. Not used by the prediction method. */
  confidence?: number;
  /** Distribution of the population, default normal. */
  distribution?: "normal" | "lognormal";
  /**
   * `tolerance` (default): a bound with stated confidence. `prediction`: EN 1990 D1, the value a
   * further test falls below with the fractile's probability. `order statistic`: no distribution
   * assumed.
   */
  method?: "tolerance" | "prediction" | "order statistic";
  /**
   * SD known from prior knowledge: in the unit of the values, or of ln x for lognormal (about the
   * COV).
   */
  sdKnown?: number;
  /** SD pooled over several series, with its degrees of freedom; unit as for `sdKnown`. */
  pooledSd?: { sd: number; degreesOfFreedom: number };
  /** Fewest values for an answer from an SD of the sample itself, default 3, at least 2. */
  minimumCount?: number;
}

/** A characteristic value with all that is needed to check it by hand. */
export interface CharacteristicValue extends Account {
  status: "ok";
  /** The characteristic value, in the unit of the values. */
  value: number;
  /** Factor in mean − k·SD (of x or of ln x); null for an order statistic. */
  k: number | null;
  /** Mean the factor was applied to (of ln x for lognormal). */
  mean: number;
  /** SD the factor was applied to (of ln x for lognormal); null for an order statistic. */
  sd: number | null;
  fractile: number;
  /** null for the prediction method, which has none. */
  confidence: number | null;
  distribution: "normal" | "lognormal" | "any";
}

/**
 * Lower characteristic value of a population from a sample: x_k = mean − k·SD, or exp(mean − k·SD
 * of ln x).
 *
 * k is the exact one-sided tolerance factor, the known-SD factor z + z_conf/√n, the factor for a
 * pooled SD, or the prediction factor t √(1 + 1/n) of EN 1990 Table D1. Too few values, equal
 * values or values not positive give a named "cannot be estimated".
 * @example characteristicValue([42, 45, 51, 47, 44]) // value 34.2 with 90 % confidence (K = 3.400)
 */
export function characteristicValue(
  values: ArrayLike<number>,
  options: CharacteristicOptions = {},
): CharacteristicValue | NotEstimable {
  const {
    fractile = 0.05,
    confidence = 0.9,
    distribution = "normal",
    method = "tolerance",
    sdKnown,
    pooledSd,
  } = options;
  requireQuestion("characteristicValue", 1, fractile, confidence);
  requireSd(sdKnown, "sdKnown");
  requireSd(pooledSd?.sd, "pooledSd.sd");
  const { values: x, excluded } = cleanSample(values, "characteristicValue");
  const n = x.length;
  if (method === "order statistic") return byOrderStatistic(x, fractile, confidence, excluded);
  const name = methodName(options);
  const ownSd = sdKnown === undefined && pooledSd === undefined;
  const minimum = ownSd ? Math.max(2, options.minimumCount ?? 3) : 1;
  if (n < minimum)
    return notEstimable(
      name,
      "too few values",
      `at least ${minimum}${ownSd ? ", or an SD known or pooled from other series" : ""}`,
      n,
      excluded,
    );
  if (distribution === "lognormal" && x.some((value) => value <= 0)) {
    return notEstimable(
      name,
      "values not positive",
      "every value above zero for a lognormal distribution",
      n,
      excluded,
    );
  }
  const scaled = distribution === "lognormal" ? x.map(Math.log) : x;
  const centre = mean(scaled);
  const sd = sdKnown ?? pooledSd?.sd ?? standardDeviation(scaled);
  if (ownSd && isNoSpread(sd, distribution === "lognormal" ? 1 : centre)) {
    return notEstimable(
      name,
      "no spread",
      "values that differ, or a known SD: equal values give no information on the scatter",
      n,
      excluded,
    );
  }
  const k = factor(n, options);
  const bound = centre - k * sd;
  const value = distribution === "lognormal" ? Math.exp(bound) : bound;
  return {
    status: "ok",
    value,
    k,
    mean: centre,
    sd,
    n,
    fractile,
    excluded,
    distribution,
    confidence: method === "prediction" ? null : confidence,
    method: name,
    assumptions: assumptions(options),
    reading: read(value, k, n, options),
  };
}

function requireSd(sd: number | undefined, name: string): void {
  if (sd !== undefined && !(sd > 0 && Number.isFinite(sd)))
    throw new RangeError(`characteristicValue: ${name} is ${sd}, expected a positive number`);
}

function factor(n: number, options: CharacteristicOptions): number {
  const { fractile = 0.05, confidence = 0.9, method = "tolerance", sdKnown, pooledSd } = options;
  const degreesOfFreedom = pooledSd?.degreesOfFreedom ?? n - 1;
  if (method === "prediction")
    return predictionFactor({ n, fractile, sdKnown: sdKnown !== undefined, degreesOfFreedom });
  if (sdKnown !== undefined) return knownSdToleranceFactor({ n, fractile, confidence });
  return toleranceFactor({ n, fractile, confidence, degreesOfFreedom });
}

function methodName(options: CharacteristicOptions): string {
  const { distribution = "normal", method = "tolerance", sdKnown, pooledSd } = options;
  const spread =
    sdKnown !== undefined
      ? "SD known"
      : pooledSd !== undefined
        ? "SD pooled over series"
        : "SD unknown";
  return `${method === "prediction" ? "Prediction form of EN 1990 D1" : "One-sided tolerance bound"}, ${distribution}, ${spread}`;
}

function assumptions(options: CharacteristicOptions): string[] {
  const list = [
    "values independent and of one population",
    `population ${options.distribution ?? "normal"}`,
  ];
  if (options.sdKnown !== undefined) list.push("SD known beforehand, not from these values");
  if (options.pooledSd !== undefined) list.push("the same SD in every pooled series");
  return list;
}

function read(value: number, k: number, n: number, options: CharacteristicOptions): string {
  const {
    fractile = 0.05,
    confidence = 0.9,
    distribution = "normal",
    method = "tolerance",
  } = options;
  const tail = `(n = ${n}, k = ${k.toFixed(3)}, ${distribution})`;
  const warning =
    value < 0
      ? " The value is negative: a normal distribution is not suitable for these data."
      : "";
  return method === "prediction"
    ? `A further test falls below ${significant(value)} with a probability of ${percent(fractile)} ${tail}.${warning}`
    : `With ${percent(confidence)} confidence at least ${percent(1 - fractile)} of the population lies above ${significant(value)} ${tail}.${warning}`;
}

function byOrderStatistic(
  x: number[],
  fractile: number,
  confidence: number,
  excluded: Excluded[],
): CharacteristicValue | NotEstimable {
  const bound = orderStatisticBound(x, { fractile, confidence });
  if (bound.status === "cannot be estimated") return { ...bound, excluded };
  return {
    status: "ok",
    value: bound.value,
    k: null,
    mean: mean(x),
    sd: null,
    n: x.length,
    fractile,
    confidence,
    distribution: "any",
    method: bound.method,
    assumptions: bound.assumptions,
    excluded,
    reading: bound.reading,
  };
}
