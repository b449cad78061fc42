import type { SeriesSample } from "./tests-in-series";

/** A fractile: its median estimate and its one-sided bounds. */
export interface FractileBounds {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

/** Which fractile is asked for, and the one-sided confidence of each bound. */
export interface FractileQuestion {
  readonly fractile: number;
  readonly confidence: number;
  /**
   * Confidence of the upper bound where it differs, as for the smallest of several upper bounds.
   */
  readonly upperConfidence?: number;
}

/**
 * An estimate with the variance of its error, and the degrees of freedom between series behind it.
 */
export interface Estimated {
  readonly value: number;
  readonly variance: number;
  readonly degrees: number;
}

export interface RandomEffectsSample extends SeriesSample {
  /**
   * Number of leading columns of X that are indicators of cells: exactly one of them is 1 at every
   * point.
   */
  readonly cells: number;
  /** Series effect left out: every test independent of the others. Default false. */
  readonly independent?: boolean;
}
