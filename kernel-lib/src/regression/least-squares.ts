import { f } from "../statistics/distributions/f";
import { bandsAt, requireShare, type BandOptions, type Bands } from "./bands";
import { coefficientTable, type Coefficient } from "./coefficient-table";
import { describeLeastSquares } from "./least-squares-reading";
import { gatherRows, INTERCEPT, type ModelRows, type NumericColumn } from "./model-rows";
import { solveOrthogonally, type OrthogonalSolution } from "./orthogonal-solve";
import { RegressionError } from "./regression-error";
import {
  classicalCovariance,
  clusterCovariance,
  hc3Covariance,
  type CoefficientCovariance,
  type StandardErrorMethod,
} from "./sandwich";
import type { RegressionStatement } from "./statement";

export interface LeastSquaresInput {
  /** Observed values. */
  readonly y: NumericColumn;
  /** Explanatory columns by name, each as long as y. */
  readonly columns: Readonly<Record<string, NumericColumn>>;
  /** Default true. */
  readonly intercept?: boolean;
  /** Precision weights: the variance of y_i is sigma^2 / w_i. */
  readonly weights?: NumericColumn;
  readonly standardErrors?: StandardErrorMethod;
  /** Confidence of the coefficients' intervals; default 0.95. */
  readonly confidence?: number;
  /** Name of y in the reading; default "y". */
  readonly response?: string;
}

/**
 * Test that all columns but the intercept have coefficient 0; null when there is nothing to test or
 * no scatter.
 */
export interface OverallTest {
  readonly f: number;
  readonly numeratorDf: number;
  readonly denominatorDf: number;
  readonly p: number;
}

export interface LeastSquaresFit extends RegressionStatement {
  readonly response: string;
  readonly names: readonly string[];
  readonly coefficients: readonly Coefficient[];
  readonly confidence: number;
  /** Covariance of the coefficients, by rows in the order of `names`. */
  readonly covariance: readonly Float64Array[];
  readonly residualSd: number;
  readonly degreesOfFreedom: number;
  readonly residualSumOfSquares: number;
  /**
   * Share of the variation about the mean (about zero without an intercept); null when y does not
   * vary.
   */
  readonly rSquared: number | null;
  readonly adjustedRSquared: number | null;
  readonly overall: OverallTest | null;
  /** Index in the data of each row used; `fitted`, `residuals` and `leverage` follow it. */
  readonly rows: Int32Array;
  readonly fitted: Float64Array;
  readonly residuals: Float64Array;
  readonly leverage: Float64Array;
  readonly model: ModelRows;
  readonly solution: OrthogonalSolution;
  /** The named coefficient; throws when there is none of that name. */
  coefficient(name: string): Coefficient;
  /** Confidence, prediction and tolerance bands at new rows. */
  predict(columns: Readonly<Record<string, NumericColumn>>, options?: BandOptions): Bands;
}

/**
 * Weighted linear least squares, y = X b + error, by column-scaled Householder QR.
 *
 * @throws RegressionError too_few_rows (fewer usable rows than coefficients + 1), unequal_lengths,
 *   invalid_weight; RankDeficientError naming the columns that are not independent
 * @example
 * leastSquares({ y: ratio, columns: { bar_diameter_mm } }).coefficient("bar_diameter_mm").estimate
 */
export function leastSquares(input: LeastSquaresInput): LeastSquaresFit {
  const confidence = requireShare(input.confidence ?? 0.95, "confidence");
  const standardErrors = input.standardErrors ?? "classical";
  const model = gatherRows(
    typeof standardErrors === "object"
      ? { ...input, reject: blankLabel(standardErrors.clusters) }
      : input,
  );
  const p = model.columns.length;
  if (model.n < p + 1) {
    throw new RegressionError(
      "too_few_rows",
      `The model has ${p} coefficients and ${model.n} usable rows (${model.excluded.length} excluded): expected at least ${p + 1} rows, to estimate the scatter`,
    );
  }
  const solution = solveOrthogonally(model.columns, model.y, model.names, model.weights);
  const df = solution.degreesOfFreedom;
  const total = totalSumOfSquares(model);
  const exactFit = solution.residualSumOfSquares <= roundingSumOfSquares(model);
  const covariance = covarianceBy(standardErrors, solution, model);
  const coefficients = coefficientTable(
    model.names,
    solution.estimates,
    covariance,
    confidence,
    exactFit,
  );
  const varies = total > roundingSumOfSquares(model);
  const rSquared = varies ? 1 - solution.residualSumOfSquares / total : null;
  const hasIntercept = model.names.includes(INTERCEPT);
  const response = input.response ?? "y";
  const residualSd = Math.sqrt(solution.residualSumOfSquares / df);
  const overall =
    exactFit || !varies ? null : overallTest(solution, total, p - (hasIntercept ? 1 : 0));
  return {
    ...describeLeastSquares({
      model,
      coefficients,
      confidence,
      residualSd,
      rSquared,
      response,
      exactFit,
      standardErrors,
      clusterDf: covariance.degreesOfFreedom,
    }),
    response,
    names: model.names,
    coefficients,
    confidence,
    covariance: covariance.covariance,
    residualSd,
    degreesOfFreedom: df,
    residualSumOfSquares: solution.residualSumOfSquares,
    rSquared,
    adjustedRSquared:
      rSquared === null ? null : 1 - ((1 - rSquared) * (model.n - (hasIntercept ? 1 : 0))) / df,
    overall,
    rows: model.rows,
    fitted: solution.fitted,
    residuals: solution.residuals,
    leverage: solution.leverage,
    model,
    solution,
    coefficient: (name) => namedCoefficient(coefficients, name),
    predict: (columns, options) =>
      bandsAt(
        {
          names: model.names,
          estimates: solution.estimates,
          covariance: covariance.covariance,
          residualSd,
          residualDf: df,
          coefficientDf: covariance.degreesOfFreedom,
        },
        columns,
        options,
      ),
  };
}

/** The coefficient of that name; throws missing_column listing the names there are. */
export function namedCoefficient(coefficients: readonly Coefficient[], name: string): Coefficient {
  const found = coefficients.find((c) => c.name === name);
  if (found === undefined)
    throw new RegressionError(
      "missing_column",
      `The model has no coefficient "${name}"; expected one of ${coefficients.map((c) => `"${c.name}"`).join(", ")}`,
    );
  return found;
}

function covarianceBy(
  method: StandardErrorMethod,
  solution: OrthogonalSolution,
  model: ModelRows,
): CoefficientCovariance {
  if (method === "classical") return classicalCovariance(solution);
  if (method === "hc3") return hc3Covariance(solution, model.weights);
  return clusterCovariance(
    solution,
    model.weights,
    Array.from(model.rows, (i) => method.clusters[i]!),
  );
}

/** Sets a row aside when its study or series is not named. */
export function blankLabel(labels: ArrayLike<string | number>): (row: number) => string | null {
  return (row) => {
    const label = labels[row];
    return label === undefined || label === "" || Number.isNaN(label) ? "no study named" : null;
  };
}

function totalSumOfSquares(model: ModelRows): number {
  const weight = (i: number): number => model.weights?.[i] ?? 1;
  let mean = 0;
  if (model.names.includes(INTERCEPT)) {
    let sum = 0;
    model.y.forEach((value, i) => {
      mean += weight(i) * value;
      sum += weight(i);
    });
    mean /= sum;
  }
  let total = 0;
  model.y.forEach((value, i) => {
    total += weight(i) * (value - mean) ** 2;
  });
  return total;
}

/** Below this a sum of squared residuals is only the rounding of y itself. */
function roundingSumOfSquares(model: ModelRows): number {
  let sum = 0;
  model.y.forEach((value, i) => {
    sum += (model.weights?.[i] ?? 1) * value * value;
  });
  return sum * (64 * 2 ** -52) ** 2;
}

function overallTest(
  solution: OrthogonalSolution,
  total: number,
  numeratorDf: number,
): OverallTest | null {
  if (numeratorDf === 0) return null;
  const denominatorDf = solution.degreesOfFreedom;
  const ratio =
    (total - solution.residualSumOfSquares) /
    numeratorDf /
    (solution.residualSumOfSquares / denominatorDf);
  return {
    f: ratio,
    numeratorDf,
    denominatorDf,
    p: f(numeratorDf, denominatorDf).upperTail(Math.max(ratio, 0)),
  };
}
