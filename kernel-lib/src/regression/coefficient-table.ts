import { normal } from "../statistics/distributions/normal";
import { studentT } from "../statistics/distributions/student-t";
import type { CoefficientCovariance } from "./sandwich";

/** One coefficient with its inference; all in the units of y over those of the column. */
export interface Coefficient {
  readonly name: string;
  readonly estimate: number;
  readonly standardError: number;
  /** estimate / standard error; null when the fit has no scatter to judge by. */
  readonly t: number | null;
  /** Two-sided p-value of "this coefficient is 0"; null as for t. */
  readonly p: number | null;
  readonly lower: number;
  readonly upper: number;
  /** Degrees of freedom of t; Infinity for a normal approximation. */
  readonly degreesOfFreedom: number;
}

/**
 * Two-sided quantile: t with `df` degrees of freedom such that P(|T| <= t) = confidence; normal for
 * infinite df.
 */
export function twoSidedQuantile(confidence: number, df: number): number {
  const law = df === Infinity ? normal() : studentT(df);
  return law.upperQuantile((1 - confidence) / 2);
}

/** P(|T| >= |t|). */
export function twoSidedP(t: number, df: number): number {
  const law = df === Infinity ? normal() : studentT(df);
  return Math.min(1, 2 * law.upperTail(Math.abs(t)));
}

/** Coefficient rows from estimates and their covariance. */
export function coefficientTable(
  names: readonly string[],
  estimates: ArrayLike<number>,
  covariance: CoefficientCovariance,
  confidence: number,
  exactFit: boolean = false,
): Coefficient[] {
  return names.map((name, j) =>
    coefficientOf(
      name,
      estimates[j]!,
      Math.sqrt(Math.max(covariance.covariance[j]![j]!, 0)),
      covariance.degreesOfFreedom,
      confidence,
      exactFit,
    ),
  );
}

/** One coefficient row from its estimate, standard error and degrees of freedom. */
export function coefficientOf(
  name: string,
  estimate: number,
  standardError: number,
  df: number,
  confidence: number,
  exactFit: boolean = false,
): Coefficient {
  const half = twoSidedQuantile(confidence, df) * standardError;
  const t = exactFit || standardError === 0 ? null : estimate / standardError;
  return {
    name,
    estimate,
    standardError,
    t,
    p: t === null ? null : twoSidedP(t, df),
    lower: estimate - half,
    upper: estimate + half,
    degreesOfFreedom: df,
  };
}
