import type { ErrorTerms } from "./error-terms";
import type { FractileFactorSource } from "./fractile-factors";
import type { CalibrationLine } from "./calibration-trace";
import type { Resistances } from "./resistances";
import type { SeriesBehind } from "./series-behind";
import type { TrendCheck } from "./trend-checks";
import type { VariationBudget } from "./variation-budget";

/** Tests and prior knowledge for a calibration to EN 1990 Annex D.8. */
export interface CalibrationInput {
  /** r_e and r_t of each test, same unit; r_t with the measured properties of the specimen. */
  readonly experimental: ArrayLike<number>;
  readonly theoretical: ArrayLike<number>;
  /**
   * V_rt from prior knowledge of the basic variables, in all members built, not only in the tests.
   */
  readonly budget: VariationBudget;
  /**
   * r_n / g_rt(X_m): the resistance with nominal properties over the one with mean properties;
   * default 1.
   */
  readonly nominalOverMean?: number;
  /** Marks tests that are lower bounds (the bar broke first). Annex D cannot use them. */
  readonly lowerBounds?: ArrayLike<boolean>;
  /**
   * What becomes of lower bounds: left out, as the annex would have it, or used by maximum
   * likelihood of log-normal errors, an extension of our own (`censoredErrorTermsOf`). Default
   * `left out`.
   */
  readonly treatmentOfLowerBounds?: "left out" | "used by likelihood";
  /** Variables of the resistance function, for the trend checks. */
  readonly variables?: Readonly<Record<string, ArrayLike<number>>>;
  /**
   * Series of each test (same laboratory, geometry, batch). The annex does not know them: they
   * change no number of it, `behind` says what they would.
   */
  readonly series?: ArrayLike<string>;
  /** Rounding step of a factor, beyond which a move by series is warned of; default 0.05. */
  readonly step?: number;
  /** Number of tests for k_n and k_d,n where it is not the number used here. */
  readonly factorCount?: number;
  readonly variationKnown?: boolean;
  readonly source?: FractileFactorSource;
  /** Name of the set in the reading. */
  readonly label?: string;
}

/** Calibration to EN 1990 Annex D.8 with all that is needed to check it by hand. */
export interface Calibration {
  readonly status: "derived" | "not derived";
  readonly label: string;
  /** Tests that failed in the mode. */
  readonly n: number;
  /** Tests that are lower bounds only. */
  readonly lowerBounds: number;
  /** How b and V_δ were found. */
  readonly method: "least squares" | "censored maximum likelihood";
  readonly terms: ErrorTerms | null;
  readonly budget: VariationBudget;
  /** Relative to g_rt(X_m) = 1. */
  readonly resistances: Resistances | null;
  /** γ_M = r_k / r_d. */
  readonly partialFactor: number | null;
  /**
   * r_n / r_d: the partial factor on the nominal resistance. The k_c of D.8.3 is taken as this
   * ratio from memory: to be checked against a licensed copy.
   */
  readonly nominalPartialFactor: number | null;
  /** r_k / r_n: the factor on the nominal resistance that makes it characteristic. */
  readonly characteristicFactor: number | null;
  /** r_d / r_n: the factor on the nominal resistance that makes it the design value. */
  readonly designFactor: number | null;
  readonly trends: readonly TrendCheck[];
  /** The series behind the tests; null where none were given or nothing is derived. */
  readonly behind: SeriesBehind | null;
  readonly trace: readonly CalibrationLine[];
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
  readonly reading: string;
}
