import type { CensoredInput } from "./censored-sample";
import type { CensoredStatement } from "./censored-words";
import type { CensoredDistribution } from "./location-scale-law";

/**
 * How the lower bound of the fractile is made.
 * - `exact`: noncentral t; only for an uncensored normal or lognormal sample.
 * - `likelihood`: profile likelihood, one-sided. Large-sample: too high a value for few tests.
 * - `pivot_bootstrap`: bootstrap of (estimate - fractile) / scale under the fitted law and the
 *   observed censoring; without censoring it is the exact factor but for its own noise.
 * - `clusters`: the exact factor for as many independent tests as the series are worth, from
 *   omitting one series at a time; for a Weibull law Wald with that standard error, t on series
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
