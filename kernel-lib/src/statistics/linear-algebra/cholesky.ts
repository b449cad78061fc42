/**
 * Small symmetric positive definite systems: Hessians of likelihoods, cross-products of resamples.
 */

/**
 * Lower Cholesky factor L of A = L L', in place, A stored by rows in a p x p array.
 *
 * @returns false when A is not positive definite to rounding; A is then spoilt
 */
export function choleskyInPlace(a: Float64Array, p: number): boolean {
  for (let j = 0; j < p; j += 1) {
    const original = a[j * p + j]!;
    let pivot = original;
    for (let k = 0; k < j; k += 1) pivot -= a[j * p + k]! * a[j * p + k]!;
    if (!(pivot > 1e-14 * original)) return false;
    const root = Math.sqrt(pivot);
    a[j * p + j] = root;
    for (let i = j + 1; i < p; i += 1) {
      let value = a[i * p + j]!;
      for (let k = 0; k < j; k += 1) value -= a[i * p + k]! * a[j * p + k]!;
      a[i * p + j] = value / root;
    }
  }
  return true;
}

/** Solves L L' x = b in place on b, with L from {@link choleskyInPlace}. */
export function choleskySolveInPlace(l: Float64Array, p: number, b: Float64Array): void {
  for (let i = 0; i < p; i += 1) {
    let value = b[i]!;
    for (let k = 0; k < i; k += 1) value -= l[i * p + k]! * b[k]!;
    b[i] = value / l[i * p + i]!;
  }
  for (let i = p - 1; i >= 0; i -= 1) {
    let value = b[i]!;
    for (let k = i + 1; k < p; k += 1) value -= l[k * p + i]! * b[k]!;
    b[i] = value / l[i * p + i]!;
  }
}

/** A^-1 by rows, or null when A is not positive definite. A is left as it was. */
export function inversePositiveDefinite(a: Float64Array, p: number): Float64Array | null {
  const factor = Float64Array.from(a);
  if (!choleskyInPlace(factor, p)) return null;
  const inverse = new Float64Array(p * p);
  for (let j = 0; j < p; j += 1) {
    const unit = new Float64Array(p);
    unit[j] = 1;
    choleskySolveInPlace(factor, p, unit);
    for (let i = 0; i < p; i += 1) inverse[i * p + j] = unit[i]!;
  }
  return inverse;
}
