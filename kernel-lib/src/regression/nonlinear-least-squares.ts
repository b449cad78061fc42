import { counted, intervalWords, significant } from "../statistics/reading";
import { requireShare } from "./bands";
import { coefficientTable, type Coefficient } from "./coefficient-table";
import { Dual } from "./dual-number";
import { searchMinimum, type ResidualModel } from "./levenberg-marquardt";
import { namedCoefficient } from "./least-squares";
import type { NumericColumn, SetAsideRow } from "./model-rows";
import { solveOrthogonally, unscaledCovariance } from "./orthogonal-solve";
import { RegressionError } from "./regression-error";
import { setAsideWords, type RegressionStatement } from "./statement";

export interface NonlinearInput {
  readonly y: NumericColumn;
  readonly columns: Readonly<Record<string, NumericColumn>>;
  /** Start value of each parameter by name. */
  readonly start: Readonly<Record<string, number>>;
  /** The model: value at one row from its columns and the parameters. Derivatives come with it. */
  readonly model: (
    row: Readonly<Record<string, number>>,
    parameters: Readonly<Record<string, Dual>>,
  ) => Dual;
  readonly confidence?: number;
  readonly response?: string;
  /** Default 2000. */
  readonly maxSteps?: number;
}

export interface NonlinearFit extends RegressionStatement {
  readonly coefficients: readonly Coefficient[];
  readonly covariance: readonly Float64Array[];
  readonly residualSd: number;
  readonly residualSumOfSquares: number;
  readonly degreesOfFreedom: number;
  readonly rows: Int32Array;
  readonly fitted: Float64Array;
  readonly residuals: Float64Array;
  readonly steps: number;
  coefficient(name: string): Coefficient;
  /** Fitted values at new rows. */
  predict(columns: Readonly<Record<string, NumericColumn>>): Float64Array;
}

/**
 * Nonlinear least squares by Levenberg-Marquardt with exact (dual-number) derivatives and a QR of
 * each step. Standard errors and intervals are those of the model made straight at the minimum (s^2
 * (J'J)^-1, t on n - p). The minimum found is a local one: try other starts.
 *
 * @throws RegressionError too_few_rows, no_convergence; RankDeficientError when the rows do not
 *   tell parameters apart at the minimum
 * @example
 * nonlinearLeastSquares({ y: bond, columns: { slip }, start: { peak: 10, a: 0.4 }, model: (x, { peak, a }) => peak!.times(powerOf(x.slip!, a!)) })
 */
export function nonlinearLeastSquares(input: NonlinearInput): NonlinearFit {
  const confidence = requireShare(input.confidence ?? 0.95, "confidence");
  const names = Object.keys(input.start);
  const columnNames = Object.keys(input.columns);
  for (const name of columnNames)
    if (input.columns[name]!.length !== input.y.length)
      throw new RegressionError(
        "unequal_lengths",
        `Column "${name}" has ${input.columns[name]!.length} rows, expected ${input.y.length} as in y`,
      );
  const rowAt = (
    columns: Readonly<Record<string, NumericColumn>>,
    i: number,
  ): Record<string, number> =>
    Object.fromEntries(columnNames.map((name) => [name, columns[name]?.[i] ?? NaN]));
  const excluded: SetAsideRow[] = [];
  const rows: number[] = [];
  for (let i = 0; i < input.y.length; i += 1) {
    const missing = Number.isFinite(input.y[i])
      ? columnNames.find((name) => !Number.isFinite(input.columns[name]![i]))
      : "y";
    if (missing === undefined) rows.push(i);
    else excluded.push({ row: i, reason: `no finite value of "${missing}"` });
  }
  const n = rows.length;
  const p = names.length;
  if (p === 0 || n < p + 1)
    throw new RegressionError(
      "too_few_rows",
      `The model has ${p} parameters and ${n} usable rows: expected at least 1 parameter and ${p + 1} rows`,
    );
  const data = rows.map((i) => rowAt(input.columns, i));
  const y = Float64Array.from(rows, (i) => input.y[i]!);
  const duals = (values: ArrayLike<number>): Record<string, Dual> =>
    Object.fromEntries(names.map((name, j) => [name, Dual.parameter(values[j]!, j, p)]));
  const evaluate: ResidualModel = (values) => {
    const parameters = duals(values);
    const fitted = new Float64Array(n);
    const jacobian = names.map(() => new Float64Array(n));
    data.forEach((row, i) => {
      const at = input.model(row, parameters);
      fitted[i] = at.value;
      for (let j = 0; j < p; j += 1) jacobian[j]![i] = at.slopes[j]!;
    });
    return { fitted, jacobian };
  };
  const found = searchMinimum(
    evaluate,
    y,
    Float64Array.from(names, (name) => input.start[name]!),
    input.maxSteps ?? 2000,
  );
  const solution = solveOrthogonally(found.jacobian, found.residuals, names);
  const df = n - p;
  const variance = found.sumOfSquares / df;
  const covariance = unscaledCovariance(solution.inverseR).map((row) =>
    row.map((v) => v * variance),
  );
  const coefficients = coefficientTable(
    names,
    found.parameters,
    { covariance, degreesOfFreedom: df },
    confidence,
  );
  const residualSd = Math.sqrt(variance);
  return {
    coefficients,
    covariance,
    residualSd,
    residualSumOfSquares: found.sumOfSquares,
    degreesOfFreedom: df,
    rows: Int32Array.from(rows),
    residuals: found.residuals,
    fitted: y.map((v, i) => v - found.residuals[i]!),
    steps: found.steps,
    n,
    excluded,
    method: "Nonlinear least squares, Levenberg-Marquardt with exact derivatives",
    assumptions: [
      "the model has the right form",
      "errors are independent, normal, with one scatter",
      "the model is nearly linear in its parameters near the minimum; otherwise intervals are approximate",
    ],
    warnings: ["The minimum is local; other starting values may give a lower one"],
    reading: `${input.response ?? "y"} follows the model with ${coefficients.map((c) => `${c.name} ${significant(c.estimate)} (${intervalWords(c.lower, c.upper, confidence)})`).join(", ")}; residual SD ${significant(residualSd)} (${counted(n, "row")}${setAsideWords(excluded)}).`,
    coefficient: (name) => namedCoefficient(coefficients, name),
    predict: (columns) => {
      const parameters = duals(found.parameters);
      const length = Object.values(columns)[0]?.length ?? 0;
      return Float64Array.from(
        { length },
        (_, i) => input.model(rowAt(columns, i), parameters).value,
      );
    },
  };
}
