import type { Coefficient } from "./coefficient-table";
import type { NumericColumn } from "./model-rows";
import type { RegressionStatement } from "./statement";

export interface MixedModelInput {
  readonly y: NumericColumn;
  readonly columns: Readonly<Record<string, NumericColumn>>;
  readonly intercept?: boolean;
  /** Study (or laboratory, or series) of each row; a blank one sets the row aside. */
  readonly studies: ArrayLike<string | number>;
  /** What shares a random shift, one and several, for the words; default ["study", "studies"]. */
  readonly unit?: readonly [one: string, several: string];
  /** Default "reml". */
  readonly method?: "reml" | "ml";
  readonly confidence?: number;
  readonly response?: string;
}

/** A standard deviation with its profile-likelihood interval; the upper end may be Infinity. */
export interface ScatterComponent {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

export interface StudyEffect {
  readonly study: string | number;
  readonly n: number;
  /** Predicted departure of the study from the common line, shrunk towards 0. */
  readonly effect: number;
}

export interface MixedModel extends RegressionStatement {
  readonly coefficients: readonly Coefficient[];
  readonly covariance: readonly Float64Array[];
  readonly betweenStudySd: ScatterComponent;
  readonly withinStudySd: ScatterComponent;
  /** Share of the variance that lies between studies. */
  readonly intraclassCorrelation: number;
  readonly logLikelihood: number;
  /** Likelihood-ratio test of "no study effect", p halved because a variance cannot be negative. */
  readonly studyTest: { readonly statistic: number; readonly p: number };
  readonly studies: readonly StudyEffect[];
  readonly confidence: number;
  coefficient(name: string): Coefficient;
  /**
   * Fitted mean with its interval, and the interval for one new test from a new study, at new rows.
   */
  predict(columns: Readonly<Record<string, NumericColumn>>): {
    readonly fitted: Float64Array;
    readonly meanLower: Float64Array;
    readonly meanUpper: Float64Array;
    readonly newStudyLower: Float64Array;
    readonly newStudyUpper: Float64Array;
  };
}
