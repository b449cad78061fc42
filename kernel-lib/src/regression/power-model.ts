import type { BandOptions } from "./bands";
import type { Coefficient } from "./coefficient-table";
import { isTold } from "./least-squares-reading";
import { leastSquares, type LeastSquaresFit, type LeastSquaresInput } from "./least-squares";
import type { NumericColumn } from "./model-rows";
import { RegressionError } from "./regression-error";
import { setAsideWords, type RegressionStatement } from "./statement";
import { counted, intervalWords, percent, pWords, significant } from "../statistics/reading";

/** Predictions of a power model in the units of y. */
export interface PowerBands {
  /** exp(fit): the median of y, which is lower than its mean. */
  readonly median: Float64Array;
  /** exp(fit + s^2 / 2): the mean of y under lognormal errors. */
  readonly mean: Float64Array;
  readonly confidenceLower: Float64Array;
  readonly confidenceUpper: Float64Array;
  readonly predictionLower: Float64Array;
  readonly predictionUpper: Float64Array;
  readonly tolerance: Float64Array;
}

export interface PowerModel extends RegressionStatement {
  /** Exponent of each column, with its inference. */
  readonly exponents: readonly Coefficient[];
  /** Factor before the powers, exp of the intercept, with its interval. */
  readonly factor: { readonly estimate: number; readonly lower: number; readonly upper: number };
  /**
   * exp(s^2 / 2): what the fitted (median) curve must be multiplied by to give the mean, lognormal
   * errors.
   */
  readonly meanOverMedian: number;
  /** The same without a law for the errors: mean of exp(residual) (Duan 1983). */
  readonly smearing: number;
  /** The fit of ln y on ln columns. */
  readonly fit: LeastSquaresFit;
  /**
   * Intervals are those of the median; the tolerance bound and the prediction interval carry over
   * exactly.
   */
  predict(columns: Readonly<Record<string, NumericColumn>>, options?: BandOptions): PowerBands;
}

/**
 * Power law y = A x1^b1 x2^b2 ... error, fitted as ln y = ln A + sum b ln x by least squares.
 *
 * Transforming back gives the median, which lies below the mean by the factor exp(s^2 / 2): both
 * are given.
 *
 * @throws RegressionError not_positive for a value of 0 or less, and those of {@link leastSquares}
 * @example powerModel({ y: load, columns: { embedment_mm, concrete_strength_MPa } }).exponents
 */
export function powerModel(input: Omit<LeastSquaresInput, "intercept">): PowerModel {
  const logs = (name: string, column: NumericColumn): Float64Array =>
    Float64Array.from(column, (value, i) => {
      if (value <= 0)
        throw new RegressionError(
          "not_positive",
          `"${name}" of row ${i} is ${value}: a power model needs values above 0`,
        );
      return Math.log(value);
    });
  const inLogs = (columns: Readonly<Record<string, NumericColumn>>): Record<string, Float64Array> =>
    Object.fromEntries(Object.entries(columns).map(([name, column]) => [name, logs(name, column)]));
  const response = input.response ?? "y";
  const fit = leastSquares({
    ...input,
    y: logs(response, input.y),
    columns: inLogs(input.columns),
    intercept: true,
  });
  const intercept = fit.coefficients[0]!;
  const exponents = fit.coefficients.slice(1);
  const s2 = fit.residualSd ** 2;
  const meanOverMedian = Math.exp(s2 / 2);
  const exp = (values: Float64Array): Float64Array => values.map(Math.exp);
  const words = exponents.map(
    (c) =>
      `${c.name} to the power ${significant(c.estimate)} (${intervalWords(c.lower, c.upper, fit.confidence)}${isTold(c) ? "" : ", direction not established"}, ${pWords(c.p)})`,
  );
  return {
    exponents,
    fit,
    meanOverMedian,
    smearing: fit.residuals.reduce((sum, e) => sum + Math.exp(e), 0) / fit.n,
    factor: {
      estimate: Math.exp(intercept.estimate),
      lower: Math.exp(intercept.lower),
      upper: Math.exp(intercept.upper),
    },
    method: `Power model: ${fit.method.toLowerCase()} on logarithms`,
    assumptions: [
      "y is a product of powers times an error of constant relative size",
      ...fit.assumptions.slice(1),
    ],
    n: fit.n,
    excluded: fit.excluded,
    warnings: fit.warnings,
    reading: `${response} goes with ${words.length === 0 ? "a constant" : words.join(", ")}; the curve is the median, the mean is ${percent(meanOverMedian - 1, 2)} higher under lognormal errors (${counted(fit.n, "row")}${setAsideWords(fit.excluded)}).`,
    predict: (columns, options) => {
      const bands = fit.predict(inLogs(columns), options);
      const median = exp(bands.fitted);
      return {
        median,
        mean: median.map((v) => v * meanOverMedian),
        confidenceLower: exp(bands.confidenceLower),
        confidenceUpper: exp(bands.confidenceUpper),
        predictionLower: exp(bands.predictionLower),
        predictionUpper: exp(bands.predictionUpper),
        tolerance: exp(bands.tolerance),
      };
    },
  };
}
