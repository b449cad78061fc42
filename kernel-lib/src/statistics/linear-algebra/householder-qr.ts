/**
 * Least squares stands on this orthogonal factorisation; normal equations lose half of the digits.
 */

/** One column that the columns before it already determine. */
export interface LinearDependence {
  /** Index of the dependent column. */
  readonly column: number;
  /** Indices of the columns that combine to it; empty for a column of zeros. */
  readonly of: readonly number[];
}

/** X = Q R of a matrix with `rows` rows and `columns` columns of full rank. */
export interface QrFactors {
  readonly rows: number;
  readonly columns: number;
  /** Householder vectors on and below the diagonal, R above it; one array a column. */
  readonly factors: readonly Float64Array[];
  /** Diagonal of R, for the scaled columns. */
  readonly diagonal: Float64Array;
  /** Power of two each column was multiplied by before factorising. */
  readonly scale: Float64Array;
}

export type QrResult =
  | { readonly kind: "full_rank"; readonly qr: QrFactors }
  | { readonly kind: "rank_deficient"; readonly dependences: readonly LinearDependence[] };

const EPSILON = 2 ** -52;

/**
 * Power of two that brings a positive norm into [0.5, 1); a power of two adds no rounding error.
 */
function scaleToUnit(norm: number): number {
  return 2 ** -(Math.floor(Math.log2(norm)) + 1);
}

function largest(values: Float64Array): number {
  let top = 0;
  for (let i = 0; i < values.length; i += 1) top = Math.max(top, Math.abs(values[i]!));
  return top;
}

function normFrom(values: Float64Array, from: number): number {
  let sum = 0;
  for (let i = from; i < values.length; i += 1) sum += values[i]! * values[i]!;
  return Math.sqrt(sum);
}

/** Applies the reflection stored in `vector` (from row k) to `target`. */
function reflect(vector: Float64Array, k: number, target: Float64Array): void {
  let dot = 0;
  let length = 0;
  for (let i = k; i < vector.length; i += 1) {
    dot += vector[i]! * target[i]!;
    length += vector[i]! * vector[i]!;
  }
  const factor = (2 * dot) / length;
  for (let i = k; i < vector.length; i += 1) target[i] = target[i]! - factor * vector[i]!;
}

/**
 * Column-scaled Householder factorisation X = Q R.
 *
 * A column whose part outside the span of the columns before it is smaller than
 * `tolerance` times its length is dependent. Dependent columns are reported with the
 * columns that make them up; a least-squares answer for such a matrix is not unique,
 * so none is given.
 *
 * @param columns one array a column, all of the same length n >= number of columns
 * @param tolerance relative; default 4 n eps, the rounding of n terms
 * @throws RangeError when there are fewer rows than columns
 * @example const result = factorise([Float64Array.of(1, 1, 1), Float64Array.of(1, 2, 3)])
 */
export function factorise(columns: readonly Float64Array[], tolerance?: number): QrResult {
  const rows = columns[0]?.length ?? 0;
  if (columns.length === 0 || rows < columns.length) {
    throw new RangeError(
      `A QR factorisation needs at least as many rows as columns: got ${rows} rows and ${columns.length} columns`,
    );
  }
  const limit = tolerance ?? 4 * Math.max(rows, 8) * EPSILON;
  const scale = new Float64Array(columns.length);
  const diagonal = new Float64Array(columns.length);
  const factors: Float64Array[] = [];
  const kept: number[] = [];
  const dependences: LinearDependence[] = [];

  for (let j = 0; j < columns.length; j += 1) {
    const column = Float64Array.from(columns[j]!);
    const top = largest(column);
    if (top === 0) {
      dependences.push({ column: j, of: [] });
      continue;
    }
    scale[j] = scaleToUnit(top);
    for (let i = 0; i < rows; i += 1) column[i] = column[i]! * scale[j]!;
    const before = normFrom(column, 0);
    factors.forEach((vector, k) => reflect(vector, k, column));
    const k = factors.length;
    const rest = k < rows ? normFrom(column, k) : 0;
    if (rest <= limit * before) {
      dependences.push({ column: j, of: combinationOf(factors, diagonal, column, kept) });
      continue;
    }
    const pivot = column[k]!;
    const r = pivot > 0 ? -rest : rest;
    diagonal[k] = r;
    column[k] = pivot - r;
    factors.push(column);
    kept.push(j);
  }
  if (dependences.length > 0) return { kind: "rank_deficient", dependences };
  return { kind: "full_rank", qr: { rows, columns: columns.length, factors, diagonal, scale } };
}

/** Which kept columns carry weight in R z = r; weights at rounding level are not named. */
function combinationOf(
  factors: readonly Float64Array[],
  diagonal: Float64Array,
  target: Float64Array,
  kept: readonly number[],
): number[] {
  const weights = backSubstitute(factors, diagonal, target);
  const top = largest(weights);
  return kept.filter((_, k) => Math.abs(weights[k]!) > 1e-8 * top);
}

function backSubstitute(
  factors: readonly Float64Array[],
  diagonal: Float64Array,
  target: Float64Array,
): Float64Array {
  const p = factors.length;
  const solution = new Float64Array(p);
  for (let i = p - 1; i >= 0; i -= 1) {
    let value = target[i]!;
    for (let j = i + 1; j < p; j += 1) value -= factors[j]![i]! * solution[j]!;
    solution[i] = value / diagonal[i]!;
  }
  return solution;
}

/** Q'y, in place on a copy: the first `columns` entries fit, the rest are residual. */
export function applyTransposedQ(qr: QrFactors, y: Float64Array): Float64Array {
  const rotated = Float64Array.from(y);
  qr.factors.forEach((vector, k) => reflect(vector, k, rotated));
  return rotated;
}

/** Q z for z of length `rows`. */
export function applyQ(qr: QrFactors, z: Float64Array): Float64Array {
  const rotated = Float64Array.from(z);
  for (let k = qr.columns - 1; k >= 0; k -= 1) reflect(qr.factors[k]!, k, rotated);
  return rotated;
}

/** Coefficients b of the least-squares problem min |y - X b|, from Q'y. */
export function solveUpper(qr: QrFactors, rotated: Float64Array): Float64Array {
  const solution = backSubstitute(qr.factors, qr.diagonal, rotated);
  for (let j = 0; j < qr.columns; j += 1) solution[j] = solution[j]! * qr.scale[j]!;
  return solution;
}

/** R^-1 (upper triangular, one array a row) for the unscaled columns: (X'X)^-1 = R^-1 R^-T. */
export function inverseUpper(qr: QrFactors): Float64Array[] {
  const p = qr.columns;
  const rows = Array.from({ length: p }, () => new Float64Array(p));
  for (let j = 0; j < p; j += 1) {
    const unit = new Float64Array(p);
    unit[j] = 1;
    const column = backSubstitute(qr.factors, qr.diagonal, unit);
    for (let i = 0; i <= j; i += 1) rows[i]![j] = column[i]! * qr.scale[i]!;
  }
  return rows;
}

/** The first `columns` columns of Q, one array a column. */
export function thinQ(qr: QrFactors): Float64Array[] {
  return Array.from({ length: qr.columns }, (_, j) => {
    const unit = new Float64Array(qr.rows);
    unit[j] = 1;
    return applyQ(qr, unit);
  });
}

/** log |det R| of the unscaled columns, half of log |X'X|. */
export function logAbsDeterminant(qr: QrFactors): number {
  let sum = 0;
  for (let j = 0; j < qr.columns; j += 1) sum += Math.log(Math.abs(qr.diagonal[j]! / qr.scale[j]!));
  return sum;
}
