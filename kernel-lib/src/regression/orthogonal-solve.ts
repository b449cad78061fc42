import {
  applyTransposedQ,
  factorise,
  inverseUpper,
  logAbsDeterminant,
  solveUpper,
  thinQ,
} from "../statistics/linear-algebra";
import { RankDeficientError, RegressionError } from "./regression-error";

/** A least-squares solution with everything that inference needs. */
export interface OrthogonalSolution {
  readonly estimates: Float64Array;
  /** Residual sum of squares (weighted when weights are given). */
  readonly residualSumOfSquares: number;
  /** n - p. */
  readonly degreesOfFreedom: number;
  /** R^-1 by rows: (X'WX)^-1 = R^-1 R^-T. */
  readonly inverseR: readonly Float64Array[];
  /** Thin Q by columns, of the weighted rows. */
  readonly q: readonly Float64Array[];
  /** Residuals y - Xb, unweighted. */
  readonly residuals: Float64Array;
  readonly fitted: Float64Array;
  /** Diagonal of the hat matrix. */
  readonly leverage: Float64Array;
  /** log |det R| = log |X'WX| / 2. */
  readonly logDeterminant: number;
}

/**
 * Minimises sum of w_i (y_i - x_i b)^2 by a column-scaled Householder QR.
 *
 * @throws RegressionError too_few_rows when n < p; RankDeficientError naming the columns
 */
export function solveOrthogonally(
  columns: readonly Float64Array[],
  y: Float64Array,
  names: readonly string[],
  weights: Float64Array | null = null,
): OrthogonalSolution {
  const n = y.length;
  const p = columns.length;
  if (p === 0)
    throw new RegressionError(
      "too_few_rows",
      "The model has no column: expected an intercept or at least one column",
    );
  if (n < p)
    throw new RegressionError(
      "too_few_rows",
      `The model has ${p} coefficients and only ${n} usable rows: expected at least ${p}`,
    );
  const root = weights === null ? null : weights.map(Math.sqrt);
  const weigh = (column: Float64Array): Float64Array =>
    root === null ? column : column.map((value, i) => value * root[i]!);
  const result = factorise(columns.map(weigh));
  if (result.kind === "rank_deficient") {
    throw new RankDeficientError(
      result.dependences.map(({ column, of }) => ({
        column: names[column]!,
        of: of.map((j) => names[j]!),
      })),
    );
  }
  const { qr } = result;
  const rotated = applyTransposedQ(qr, weigh(y));
  const estimates = solveUpper(qr, rotated);
  let residualSumOfSquares = 0;
  for (let i = p; i < n; i += 1) residualSumOfSquares += rotated[i]! * rotated[i]!;
  const q = thinQ(qr);
  const leverage = new Float64Array(n);
  for (const column of q)
    for (let i = 0; i < n; i += 1) leverage[i] = leverage[i]! + column[i]! * column[i]!;
  const fitted = multiply(columns, estimates);
  const residuals = y.map((value, i) => value - fitted[i]!);
  return {
    estimates,
    residualSumOfSquares,
    degreesOfFreedom: n - p,
    inverseR: inverseUpper(qr),
    q,
    residuals,
    fitted,
    leverage,
    logDeterminant: logAbsDeterminant(qr),
  };
}

/** X b for columns of X. */
export function multiply(columns: readonly Float64Array[], b: ArrayLike<number>): Float64Array {
  const product = new Float64Array(columns[0]?.length ?? 0);
  columns.forEach((column, j) => {
    for (let i = 0; i < product.length; i += 1) product[i] = product[i]! + column[i]! * b[j]!;
  });
  return product;
}

/** (X'WX)^-1 by rows, from R^-1. */
export function unscaledCovariance(inverseR: readonly Float64Array[]): Float64Array[] {
  return inverseR.map((left) =>
    Float64Array.from(inverseR, (right) => {
      let sum = 0;
      for (let k = 0; k < left.length; k += 1) sum += left[k]! * right[k]!;
      return sum;
    }),
  );
}

/** x' C x for one row of the columns. */
export function quadraticForm(
  columns: readonly Float64Array[],
  row: number,
  covariance: readonly Float64Array[],
): number {
  let sum = 0;
  for (let i = 0; i < columns.length; i += 1) {
    for (let j = 0; j < columns.length; j += 1)
      sum += columns[i]![row]! * covariance[i]![j]! * columns[j]![row]!;
  }
  return Math.max(sum, 0);
}
