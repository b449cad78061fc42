const STEPS = 64;
const PER_LOG = STEPS / Math.LN2;
// ln 2 / 64 in two parts, the first short enough that its multiples are exact.
const HIGH = 0.01083042468962958;
const LOW = 6.619564634077006e-12;
const LIMIT = 700;
const fractions = Float64Array.from({ length: STEPS }, (_, k) => 2 ** (k / STEPS));
const powers = Float64Array.from({ length: 2048 }, (_, k) => 2 ** (k - 1024));

/**
 * out = exp(at0 + slope v) of a whole column, within 1e-15 of it (relative); v from −`reach` to
 * `reach`.
 *
 * exp(y) = 2^(k/64) e^r with |r| ≤ ln 2 / 128: a table and five terms of the series, in one loop
 * without a call. Some twice as fast as `Math.exp` row by row, which would be a third of a
 * simulation with log-normal variables.
 */
export function exponentialColumn(
  at0: number,
  slope: number,
  reach: number,
  v: Float64Array,
  out: Float64Array,
): void {
  const n = v.length;
  // Exponents near the ends of the number range are left to the careful function.
  if (!(Math.abs(at0) + Math.abs(slope) * reach < LIMIT)) {
    for (let i = 0; i < n; i++) out[i] = Math.exp(at0 + slope * (v[i] as number));
    return;
  }
  for (let i = 0; i < n; i++) {
    const y = at0 + slope * (v[i] as number);
    const k = Math.floor(y * PER_LOG + 0.5);
    const r = y - k * HIGH - k * LOW;
    const square = r * r;
    const series = r + square * (0.5 + r * (1 / 6)) + square * square * (1 / 24 + r * (1 / 120));
    const fraction = fractions[k & 63] as number;
    out[i] = (fraction + fraction * series) * (powers[(k >> 6) + 1024] as number);
  }
}
