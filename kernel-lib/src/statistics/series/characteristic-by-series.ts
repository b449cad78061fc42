import { NoMaximumError } from "../censoring/censored-likelihood";
import {
  notEstimableFrom,
  gatherCensored,
  type CensoredInput,
  type GatheredSample,
} from "../censoring/censored-sample";
import { basisWords, censoringWarnings, type CensoredStatement } from "../censoring/censored-words";
import { counted, percent, shareText, significant } from "../reading";
import { requireShares, type NotEstimable, type NotEstimableReason } from "../result";
import { RandomEffectsModel } from "./random-effects-model";
import { type FractileBounds } from "./series-estimates";

export interface CharacteristicBySeriesInput extends CensoredInput {
  /** Series of each value; one with a blank or missing name is excluded. */
  readonly clusters: ArrayLike<string | number>;
  /** Default normal. */
  readonly distribution?: "normal" | "lognormal";
  /** Fractile to be bounded from below; default 0.05. */
  readonly fractile?: number;
  /** One-sided confidence; default 0.90. */
  readonly confidence?: number;
}

/** A characteristic value of tests in series. */
export interface CharacteristicBySeries extends CensoredStatement {
  readonly status: "ok";
  /** Lower bound of the fractile with the stated confidence, in the units of the values. */
  readonly characteristic: number;
  /** Median estimate of the fractile, and its upper bound with the same confidence. */
  readonly estimate: number;
  readonly upper: number;
  /**
   * Mean and SD of a single test of any series, at the estimated correlation (of ln x for
   * lognormal).
   */
  readonly mean: number;
  readonly sd: number;
  /** Mean less this many SD gives the characteristic value (on logs for lognormal). */
  readonly factor: number;
  /**
   * Estimated intraclass correlation: share of the variance that lies between series (without lower
   * bounds that of REML).
   */
  readonly correlation: number;
  /**
   * Independent tests that the tests are worth for the mean, Σ n/(1 + (n − 1) ρ) at the estimated ρ
   * without lower bounds.
   */
  readonly effectiveTests: number;
  readonly series: number;
  /** Series with at least one failure in the mode. */
  readonly seriesFailed: number;
  readonly fractile: number;
  readonly confidence: number;
  readonly failures: number;
  readonly censoredCount: number;
}

/**
 * Fewest series with a failure: two would leave one degree of freedom for the scatter between
 * series.
 */
export const FEWEST_SERIES = 3;

/**
 * Characteristic value of tests in series (same concrete, same batch, same day), lower bounds
 * counted as such: a lower bound for the fractile of a further test of a further series.
 *
 * Model: y_ij = μ + b_i + e_ij, b_i ~ N(0, ρ σ²) one a series, e_ij ~ N(0, (1 − ρ) σ²) one a test
 * (y = ln x for lognormal). Sought: L with P(μ − z σ ≥ L) = confidence, z = Φ⁻¹(1 − fractile). For
 * a known ρ without lower bounds μ̂ = Σ w_i ȳ_i/Σ w_i with w_i = n_i/(1 + (n_i − 1) ρ), and L = μ̂
 * − K s with the exact factor K of n' = Σ w_i tests and n − 1 degrees of freedom. ρ is not known:
 * the laws of μ − z σ are mixed over ρ by the integrated likelihood and a vague prior
 * (`fitsOverCorrelation`). With lower bounds n', the degrees of freedom and the point K is counted
 * from come from the observed information at each ρ.
 *
 * Limits: normal or lognormal only; series that differ by their scatter, or by the failed ones
 * being different from the others, are outside the model; a difference between laboratories counts
 * as one between series. With 3 to 5 series the bound is safe and wide. Simulated coverage for 90
 * %: 89 to 93 % with 10 or more series, 89 to 98 % with 3 to 5 (bench `statistics-series`). With
 * one test a series it is the ordinary factor, and with tests of a series that are all but equal
 * that of their means ({@link asSingleTests}).
 *
 * Sources: one-way tolerance limits, Mee and Owen, Technometrics 25 (1983); Krishnamoorthy and
 * Mathew, Statistical Tolerance Regions (2009); prior: Box and Tiao, Bayesian Inference in
 * Statistical Analysis (1973), section 5.2. The weight at ρ = 0 and the treatment of lower bounds
 * are this library's own, judged by simulation.
 *
 * @returns the value, or "cannot be estimated" with fewer than 3 series that failed, equal values,
 *   values not positive for a lognormal
 * @throws RangeError for fractile or confidence outside 0 to 1, or columns of different length
 * @example
 * characteristicBySeries({ values, censored, clusters: series, distribution: "lognormal" }).reading
 */
export function characteristicBySeries(
  input: CharacteristicBySeriesInput,
): CharacteristicBySeries | NotEstimable {
  const { fractile = 0.05, confidence = 0.9, distribution = "normal" } = input;
  requireShares("characteristicBySeries", { fractile, confidence });
  const gathered = gatherCensored(input, distribution);
  const method = `One-sided tolerance bound, series effect included, ${distribution}`;
  const refuse = (reason: NotEstimableReason, needed: string): NotEstimable =>
    notEstimableFrom(gathered, method, { reason, needed });
  const named = gathered.clusters ?? [];
  const failedSeries = new Set(named.filter((_, i) => gathered.sample.censored[i] !== 1)).size;
  if (gathered.failures >= 2 && failedSeries < FEWEST_SERIES)
    return refuse(
      "too few series",
      `at least ${FEWEST_SERIES} series with a failure in this mode, to tell a scatter between series (there ${failedSeries === 1 ? "is" : "are"} ${failedSeries})`,
    );
  if (gathered.lack !== null) return notEstimableFrom(gathered, method, gathered.lack);
  const { y, censored } = gathered.sample;
  try {
    const model = new RandomEffectsModel({
      y,
      censored,
      series: named,
      pointOf: new Uint8Array(y.length),
      points: [[1]],
      cells: 1,
    });
    const bounds = model.fractile([1], { fractile, confidence });
    return stated(gathered, {
      method,
      distribution,
      fractile,
      confidence,
      bounds,
      mean: model.mean([1]),
      sd: model.sd,
      correlation: model.correlation,
      allButEqual: model.allButEqual,
      effectiveTests: model.effectiveTests([1]),
      series: new Set(named).size,
      failedSeries,
    });
  } catch (error) {
    if (error instanceof NoMaximumError)
      return refuse(
        "no maximum",
        `failures from which the likelihood can estimate the scatter (${error.message})`,
      );
    throw error;
  }
}

interface Found {
  readonly method: string;
  readonly distribution: "normal" | "lognormal";
  readonly fractile: number;
  readonly confidence: number;
  readonly bounds: FractileBounds;
  readonly mean: number;
  readonly sd: number;
  readonly correlation: number;
  readonly allButEqual: boolean;
  readonly effectiveTests: number;
  readonly series: number;
  readonly failedSeries: number;
}

function stated(gathered: GatheredSample, found: Found): CharacteristicBySeries {
  const {
    method,
    distribution,
    fractile,
    confidence,
    bounds,
    mean,
    sd,
    correlation,
    allButEqual,
    effectiveTests,
    series,
    failedSeries,
  } = found;
  const shown = (value: number): number => (distribution === "lognormal" ? Math.exp(value) : value);
  const characteristic = shown(bounds.lower);
  const warnings = censoringWarnings(gathered);
  if (failedSeries < 6)
    warnings.push(
      `Only ${failedSeries} series failed in this mode: the between-series variance is poorly estimated, and the bound is wide`,
    );
  if (allButEqual)
    warnings.push(
      "The tests of a series are almost equal and are effectively one test: check whether one result is entered several times",
    );
  if (characteristic <= 0)
    warnings.push(
      "The bound is not above 0: a lognormal distribution, or more series, would be needed for a usable value",
    );
  return {
    status: "ok",
    method,
    warnings,
    n: gathered.values.length,
    excluded: gathered.excluded,
    characteristic,
    estimate: shown(bounds.estimate),
    upper: shown(bounds.upper),
    mean,
    sd,
    factor: (mean - bounds.lower) / sd,
    correlation,
    effectiveTests,
    series,
    seriesFailed: failedSeries,
    fractile,
    confidence,
    failures: gathered.failures,
    censoredCount: gathered.values.length - gathered.failures,
    assumptions: [
      `the ${distribution === "lognormal" ? "logarithms of the values" : "values"} scatter normally within a series and between series, alike in every series`,
      "series are independent of each other; differences between laboratories are included as differences between series",
      ...(gathered.failures < gathered.values.length
        ? [
            "the reason for stopping a test early is independent of the load it would have reached in this mode",
          ]
        : []),
    ],
    reading: `With ${percent(confidence)} confidence the ${percent(fractile)} fractile of a further test of a further series is at least ${significant(characteristic)} (${basisWords(gathered)}; ${counted(series, "series", "series")}, intraclass correlation ${shareText(correlation)}; effective sample size for the mean ${significant(effectiveTests)}).`,
  };
}
