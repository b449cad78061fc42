/*
 * Two passes with the compensation of rounding (Chan, Golub and LeVeque 1983): right where one-pass
 * formulas fail, as for values with a large common offset.
 */

/** Arithmetic mean; NaN for an empty sample (callers ask for n first). */
export function mean(values: ArrayLike<number>): number {
  const n = values.length;
  if (n === 0) return NaN;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[i]!;
  const first = sum / n;
  let rest = 0;
  for (let i = 0; i < n; i++) rest += values[i]! - first;
  return first + rest / n;
}

/** Σ(x − x̄)², corrected for the rounding of x̄. */
export function sumOfSquares(values: ArrayLike<number>, centre: number = mean(values)): number {
  let squares = 0;
  let rest = 0;
  for (let i = 0; i < values.length; i++) {
    const d = values[i]! - centre;
    squares += d * d;
    rest += d;
  }
  return values.length === 0 ? 0 : Math.max(0, squares - (rest * rest) / values.length);
}

/** Sample variance Σ(x − x̄)²/(n − 1); NaN for n < 2. */
export function variance(values: ArrayLike<number>): number {
  return values.length < 2 ? NaN : sumOfSquares(values) / (values.length - 1);
}

/** Sample standard deviation, divisor n − 1; NaN for n < 2. */
export function standardDeviation(values: ArrayLike<number>): number {
  return Math.sqrt(variance(values));
}

/** True where a spread is nothing but rounding of equal values. */
export function isNoSpread(sd: number, centre: number): boolean {
  return !(sd > 1e-14 * Math.abs(centre));
}
