import { f } from "../statistics/distributions/f";
import { choleskyInPlace, choleskySolveInPlace } from "../statistics/linear-algebra";
import { twoSidedP } from "./coefficient-table";
import type { LeastSquaresFit } from "./least-squares";
import { RegressionError } from "./regression-error";
import type { Ancova } from "./ancova-result";

/** Wald F of b_1 = b_2 = ... from the coefficients' covariance. */
export function equalSlopesTest(
  fit: LeastSquaresFit,
  count: number,
  df: number,
): Ancova["equalSlopes"] {
  const m = count - 1;
  const base = count;
  const difference = Float64Array.from(
    { length: m },
    (_, k) => fit.coefficients[base + k + 1]!.estimate - fit.coefficients[base]!.estimate,
  );
  const c = (i: number, j: number): number => fit.covariance[base + i]![base + j]!;
  const matrix = Array.from({ length: m }, (_, i) =>
    Float64Array.from(
      { length: m },
      (_v, j) => c(i + 1, j + 1) - c(0, j + 1) - c(i + 1, 0) + c(0, 0),
    ),
  );
  const solved = solveSymmetric(matrix, difference);
  const wald =
    solved === null ? NaN : difference.reduce((sum, d, i) => sum + d * solved[i]!, 0) / m;
  if (!(wald >= 0))
    throw new RegressionError(
      "one_study",
      `The covariance of the ${count} slopes is singular, so equal slopes cannot be tested: expected more clusters than classes, or classical standard errors`,
    );
  if (m === 1)
    return { f: wald, numeratorDf: 1, denominatorDf: df, p: twoSidedP(Math.sqrt(wald), df) };
  return { f: wald, numeratorDf: m, denominatorDf: df, p: f(m, df).upperTail(wald) };
}

function solveSymmetric(matrix: readonly Float64Array[], b: Float64Array): Float64Array | null {
  const p = b.length;
  const flat = new Float64Array(p * p);
  matrix.forEach((row, i) => {
    flat.set(row, i * p);
  });
  if (!choleskyInPlace(flat, p)) return null;
  const x = Float64Array.from(b);
  choleskySolveInPlace(flat, p, x);
  return x;
}
