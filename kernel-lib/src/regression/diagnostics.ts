import { normal } from "../statistics/distributions/normal";
import { counted, significant } from "../statistics/reading";
import type { LeastSquaresFit } from "./least-squares";
import { INTERCEPT } from "./model-rows";
import { solveOrthogonally } from "./orthogonal-solve";

/**
 * Diagnostics of each row used, in the order of `fit.rows`. Values that do not exist (leverage 1)
 * are NaN.
 */
export interface RowDiagnostics {
  readonly leverage: Float64Array;
  /** Residual over its own standard error, s from all rows. */
  readonly standardised: Float64Array;
  /** Residual over its own standard error, s without the row: t on n - p - 1 degrees of freedom. */
  readonly studentised: Float64Array;
  readonly cookDistance: Float64Array;
  /** Change of the fitted value by the row, in standard errors. */
  readonly dffits: Float64Array;
  /**
   * Rows (index in the data) that deserve a look: |studentised| > 3 or Cook's distance > 1 (common
   * practice, no source).
   */
  readonly flagged: readonly number[];
  readonly reading: string;
}

/**
 * Leverage h, standardised e / (s sqrt(1 - h)), studentised residual, Cook's distance
 * r^2 h / (p (1 - h)) and DFFITS of a least-squares fit (weighted residuals where weights are
 * given). Flags rows; removes none.
 */
export function rowDiagnostics(fit: LeastSquaresFit): RowDiagnostics {
  const p = fit.names.length;
  const df = fit.degreesOfFreedom;
  const each = (value: (h: number, r: number) => number): Float64Array =>
    fit.residuals.map((e, i) => {
      const h = fit.leverage[i]!;
      if (1 - h < 1e-10 || fit.residualSd === 0) return NaN;
      return value(
        h,
        (e * Math.sqrt(fit.model.weights?.[i] ?? 1)) / (fit.residualSd * Math.sqrt(1 - h)),
      );
    });
  const studentise = (r: number): number =>
    df > 1 && df - r * r > 0 ? r * Math.sqrt((df - 1) / (df - r * r)) : NaN;
  const studentised = each((_h, r) => studentise(r));
  const cookDistance = each((h, r) => (r * r * h) / (p * (1 - h)));
  const flagged = Array.from(fit.rows).filter(
    (_, i) => Math.abs(studentised[i]!) > 3 || cookDistance[i]! > 1,
  );
  return {
    leverage: fit.leverage,
    standardised: each((_h, r) => r),
    studentised,
    cookDistance,
    dffits: each((h, r) => studentise(r) * Math.sqrt(h / (1 - h))),
    flagged,
    reading:
      flagged.length === 0
        ? `No outlier or influential row was found (${counted(fit.n, "row")}; limits: studentised residual 3, Cook's distance 1).`
        : `${counted(flagged.length, "row")} to look at: ${flagged.map((row) => `row ${row} (studentised residual ${significant(studentised[fit.rows.indexOf(row)]!)}, Cook's distance ${significant(cookDistance[fit.rows.indexOf(row)]!)})`).join(", ")}; none was removed.`,
  };
}

/**
 * Points of a normal quantile-quantile plot: sorted values against normal scores at (i - 3/8) / (n
 * + 1/4) (Blom 1958).
 */
export function normalQuantilePlot(values: ArrayLike<number>): {
  readonly scores: Float64Array;
  readonly values: Float64Array;
} {
  const sorted = Float64Array.from(Array.from(values).filter((v) => Number.isFinite(v))).sort();
  const law = normal();
  return {
    values: sorted,
    scores: sorted.map((_, i) => law.quantile((i + 1 - 0.375) / (sorted.length + 0.25))),
  };
}

/**
 * Variance inflation 1 / (1 - R_j^2) of each column but the intercept: how many times its variance
 * is larger than if it were unrelated to the other columns. Above 10 the column is hardly told
 * apart (common practice, no source).
 */
export function varianceInflation(
  fit: LeastSquaresFit,
): { readonly name: string; readonly factor: number }[] {
  const { model } = fit;
  return model.names
    .map((name, j) => ({ name, j }))
    .filter(({ name }) => name !== INTERCEPT)
    .map(({ name, j }) => {
      const others = model.columns.filter((_, k) => k !== j);
      const otherNames = model.names.filter((_, k) => k !== j);
      const column = model.columns[j]!;
      const rest =
        others.length === 0
          ? sumSquares(column, 0, model.weights)
          : solveOrthogonally(others, column, otherNames, model.weights).residualSumOfSquares;
      const mean = model.names.includes(INTERCEPT) ? weightedMean(column, model.weights) : 0;
      return { name, factor: sumSquares(column, mean, model.weights) / rest };
    });
}

function weightedMean(column: Float64Array, weights: Float64Array | null): number {
  let sum = 0;
  let total = 0;
  column.forEach((v, i) => {
    const w = weights?.[i] ?? 1;
    sum += w * v;
    total += w;
  });
  return sum / total;
}

function sumSquares(column: Float64Array, about: number, weights: Float64Array | null): number {
  return column.reduce((sum, v, i) => sum + (weights?.[i] ?? 1) * (v - about) ** 2, 0);
}
