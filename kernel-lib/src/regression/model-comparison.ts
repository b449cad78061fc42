import { f } from "../statistics/distributions/f";
import { counted, pWords, significant } from "../statistics/reading";
import { leastSquares, type LeastSquaresFit, type LeastSquaresInput } from "./least-squares";
import type { NumericColumn } from "./model-rows";
import { RegressionError } from "./regression-error";

/**
 * Information criteria of a least-squares fit; smaller is better on the same rows and the same y.
 */
export interface InformationCriteria {
  readonly logLikelihood: number;
  /** Coefficients and the scatter. */
  readonly parameters: number;
  readonly aic: number;
  /** Null when n is not above parameters + 1. */
  readonly aicc: number | null;
  readonly bic: number;
}

/**
 * Gaussian ln L = -(n (ln(2 pi RSS / n) + 1) - sum ln w) / 2; AIC = 2 k - 2 ln L; AICc adds 2 k (k
 * + 1) / (n - k - 1).
 */
export function informationCriteria(fit: LeastSquaresFit): InformationCriteria {
  const n = fit.n;
  const parameters = fit.names.length + 1;
  const logWeights =
    fit.model.weights === null ? 0 : fit.model.weights.reduce((sum, w) => sum + Math.log(w), 0);
  const logLikelihood =
    -(n * (Math.log((2 * Math.PI * fit.residualSumOfSquares) / n) + 1) - logWeights) / 2;
  const aic = 2 * parameters - 2 * logLikelihood;
  return {
    logLikelihood,
    parameters,
    aic,
    aicc:
      n > parameters + 1 ? aic + (2 * parameters * (parameters + 1)) / (n - parameters - 1) : null,
    bic: parameters * Math.log(n) - 2 * logLikelihood,
  };
}

export interface NestedTest {
  readonly method: string;
  readonly f: number;
  readonly numeratorDf: number;
  readonly denominatorDf: number;
  readonly p: number;
  readonly reading: string;
}

/**
 * F test of a smaller model nested in a larger one: F = ((RSS0 - RSS1) / (df0 - df1)) / (RSS1 /
 * df1).
 *
 * @throws RegressionError invalid_option when the smaller model's columns are not among the
 *   larger's, or the rows differ
 */
export function nestedTest(smaller: LeastSquaresFit, larger: LeastSquaresFit): NestedTest {
  const foreign = smaller.names.filter((name) => !larger.names.includes(name));
  if (foreign.length > 0)
    throw new RegressionError(
      "invalid_option",
      `The smaller model has ${foreign.map((n) => `"${n}"`).join(", ")}, which the larger model lacks: expected nested models`,
    );
  if (smaller.n !== larger.n || smaller.rows.some((row, i) => row !== larger.rows[i]))
    throw new RegressionError(
      "invalid_option",
      `The models use different rows (${smaller.n} and ${larger.n}): expected the same; exclude incomplete rows first`,
    );
  const numeratorDf = smaller.degreesOfFreedom - larger.degreesOfFreedom;
  if (numeratorDf < 1)
    throw new RegressionError(
      "invalid_option",
      "The larger model has no further column: expected at least one",
    );
  const gain = Math.max(0, smaller.residualSumOfSquares - larger.residualSumOfSquares);
  const ratio = gain / numeratorDf / (larger.residualSumOfSquares / larger.degreesOfFreedom);
  const p = f(numeratorDf, larger.degreesOfFreedom).upperTail(ratio);
  const added = larger.names
    .filter((name) => !smaller.names.includes(name))
    .map((n) => `"${n}"`)
    .join(", ");
  return {
    method: "Nested F test",
    f: ratio,
    numeratorDf,
    denominatorDf: larger.degreesOfFreedom,
    p,
    reading:
      p < 0.05
        ? `Adding ${added} lowers the scatter from ${significant(smaller.residualSd)} to ${significant(larger.residualSd)}, a significant reduction (F test, ${pWords(p)}).`
        : `No significant effect of ${added} was found (F test, ${pWords(p)}; scatter ${significant(smaller.residualSd)} without, ${significant(larger.residualSd)} with).`,
  };
}

export interface LeaveGroupOut {
  readonly method: string;
  /** Root mean square error of predicting each group from the others. */
  readonly rmse: number;
  /** Mean error, predicted less observed. */
  readonly bias: number;
  readonly groups: readonly {
    readonly group: string | number;
    readonly n: number;
    readonly rmse: number | null;
    readonly reason: string | null;
  }[];
  readonly n: number;
  readonly reading: string;
}

/**
 * Leave-one-group-out error: each study in turn is predicted by the model fitted to the other
 * studies. A group that cannot be predicted so (the rest does not determine the model) is named
 * with the reason.
 *
 * @throws RegressionError one_study for fewer than two groups, no_convergence when none can be
 *   predicted
 */
export function leaveGroupOutError(
  input: LeastSquaresInput,
  groups: ArrayLike<string | number>,
): LeaveGroupOut {
  const all = leastSquares({ ...input, standardErrors: "classical" });
  const labels = [...new Set(Array.from(all.rows, (i) => groups[i]!))];
  if (labels.length < 2)
    throw new RegressionError(
      "one_study",
      `Omitting one group at a time needs at least 2 groups: got ${labels.length}`,
    );
  let squares = 0;
  let sum = 0;
  let count = 0;
  const results = labels.map((group) => {
    const inside = Array.from(all.rows).filter((i) => groups[i] === group);
    const rest = Array.from(all.rows).filter((i) => groups[i] !== group);
    const take = (column: NumericColumn, rows: readonly number[]): number[] =>
      rows.map((i) => column[i]!);
    const columnsAt = (rows: readonly number[]): Record<string, number[]> =>
      Object.fromEntries(
        Object.entries(input.columns).map(([name, column]) => [name, take(column, rows)]),
      );
    try {
      const fit = leastSquares({
        y: take(input.y, rest),
        columns: columnsAt(rest),
        intercept: input.intercept ?? true,
        ...(input.weights === undefined ? {} : { weights: take(input.weights, rest) }),
      });
      const predicted =
        Object.keys(input.columns).length === 0
          ? inside.map(() => fit.coefficients[0]!.estimate)
          : fit.predict(columnsAt(inside)).fitted;
      const errors = inside.map((row, i) => predicted[i]! - input.y[row]!);
      const own = errors.reduce((s, e) => s + e * e, 0);
      squares += own;
      sum += errors.reduce((s, e) => s + e, 0);
      count += errors.length;
      return { group, n: inside.length, rmse: Math.sqrt(own / inside.length), reason: null };
    } catch (error) {
      if (!(error instanceof RegressionError)) throw error;
      return { group, n: inside.length, rmse: null, reason: error.message };
    }
  });
  if (count === 0)
    throw new RegressionError(
      "no_convergence",
      `No group can be predicted from the others: ${results[0]?.reason ?? ""}`,
    );
  const rmse = Math.sqrt(squares / count);
  const missing = results.filter((r) => r.rmse === null).length;
  return {
    method: "Leave-one-group-out prediction error",
    rmse,
    bias: sum / count,
    groups: results,
    n: count,
    reading: `The error of predicting a value from the other groups is ${significant(rmse)} (root mean square, ${counted(count, "row")} in ${counted(labels.length - missing, "group")}${missing > 0 ? `; ${counted(missing, "group")} cannot be predicted so` : ""}); the residual SD of the fit is ${significant(all.residualSd)}.`,
  };
}
