import { applyTransposedQ, factorise, logAbsDeterminant } from "../statistics/linear-algebra";
import { solveOrthogonally, type OrthogonalSolution } from "./orthogonal-solve";

/** Rows of y = X b + u_g + e, with u_g ~ N(0, sigma_u^2) for each study g. */
export interface MixedRows {
  readonly y: Float64Array;
  readonly columns: readonly Float64Array[];
  readonly names: readonly string[];
  /** Study number of each row, 0 to studies - 1. */
  readonly study: Int32Array;
  /** Rows of each study. */
  readonly sizes: Int32Array;
}

/** The best point found. */
export interface MixedPoint {
  readonly logLikelihood: number;
  readonly solution: OrthogonalSolution;
  /** sigma_u / sigma_e. */
  readonly ratio: number;
  readonly residualVariance: number;
}

/**
 * Log-likelihood (restricted or full) at ratio = sigma_u / sigma_e, with b and sigma_e at their
 * best, or sigma_e given.
 *
 * V_g = I + ratio^2 11' is whitened by y_ij - (1 - 1 / sqrt(1 + n_g ratio^2)) mean_g(y), so a plain
 * QR solves it. REML adds -log|X'V^-1 X| / 2 and divides by n - p.
 */
export function mixedLogLikelihood(
  rows: MixedRows,
  ratio: number,
  restricted: boolean,
  residualVariance?: number,
): number {
  const result = factorise(rows.columns.map((column) => whiten(rows, column, ratio)));
  if (result.kind === "rank_deficient") return -Infinity;
  const rotated = applyTransposedQ(result.qr, whiten(rows, rows.y, ratio));
  let residual = 0;
  for (let i = rows.columns.length; i < rotated.length; i += 1)
    residual += rotated[i]! * rotated[i]!;
  const divisor = rows.y.length - (restricted ? rows.columns.length : 0);
  const variance = residualVariance ?? residual / divisor;
  let logDeterminant = 0;
  for (let g = 0; g < rows.sizes.length; g += 1)
    logDeterminant += Math.log1p(rows.sizes[g]! * ratio * ratio);
  const twice =
    divisor * Math.log(2 * Math.PI * variance) +
    residual / variance +
    logDeterminant +
    (restricted ? 2 * logAbsDeterminant(result.qr) : 0);
  return -twice / 2;
}

/** The full solution of the whitened rows; names the columns when they are dependent. */
export function solutionAt(rows: MixedRows, ratio: number): OrthogonalSolution {
  return solveOrthogonally(
    rows.columns.map((column) => whiten(rows, column, ratio)),
    whiten(rows, rows.y, ratio),
    rows.names,
  );
}

/** Means of a column by study. */
export function studyMeans(rows: MixedRows, column: Float64Array): Float64Array {
  const means = new Float64Array(rows.sizes.length);
  for (let i = 0; i < column.length; i += 1)
    means[rows.study[i]!] = means[rows.study[i]!]! + column[i]! / rows.sizes[rows.study[i]!]!;
  return means;
}

function whiten(rows: MixedRows, column: Float64Array, ratio: number): Float64Array {
  if (ratio === 0) return column;
  const means = studyMeans(rows, column);
  return column.map((value, i) => {
    const g = rows.study[i]!;
    return value - (1 - 1 / Math.sqrt(1 + rows.sizes[g]! * ratio * ratio)) * means[g]!;
  });
}

/** Largest value of f over [0, infinity): a coarse look in x / (1 + x), then golden sections. */
export function maximiseOnHalfLine(f: (x: number) => number): number {
  const at = (t: number): number => f(t / (1 - t));
  const last = 24;
  let best = 0;
  let top = -Infinity;
  for (let k = 0; k <= last; k += 1) {
    const value = at((0.995 * k) / last);
    if (value > top) {
      top = value;
      best = k;
    }
  }
  let low = (0.995 * Math.max(best - 1, 0)) / last;
  let high = best === last ? 1 - 1e-9 : (0.995 * (best + 1)) / last;
  const golden = (Math.sqrt(5) - 1) / 2;
  let left = high - golden * (high - low);
  let right = low + golden * (high - low);
  let fLeft = at(left);
  let fRight = at(right);
  for (let i = 0; i < 60 && high - low > 1e-9; i += 1) {
    if (fLeft >= fRight) {
      [high, right, fRight] = [right, left, fLeft];
      left = high - golden * (high - low);
      fLeft = at(left);
    } else {
      [low, left, fLeft] = [left, right, fRight];
      right = low + golden * (high - low);
      fRight = at(right);
    }
  }
  const t = 0.5 * (low + high);
  return f(0) >= at(t) ? 0 : t / (1 - t);
}
