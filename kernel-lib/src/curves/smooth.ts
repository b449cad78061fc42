/** A named smoothing; the raw record is kept beside it, so that it can always be undone. */
export type Smoothing =
  | { readonly rule: "none" }
  | { readonly rule: "moving-median" | "moving-mean"; readonly points: number };

/** Smooths a record; near its ends the window shrinks evenly, so that no value is invented. */
export function smooth(values: Float64Array, smoothing: Smoothing): Float64Array {
  if (smoothing.rule === "none") return values.slice();
  const { points, rule } = smoothing;
  if (!Number.isInteger(points) || points < 1 || points % 2 === 0)
    throw new RangeError(
      `smoothing over ${String(points)} points: expected an odd whole number of at least 1`,
    );
  const half = (points - 1) / 2;
  return values.map((_, i) => {
    const reach = Math.min(half, i, values.length - 1 - i);
    const window = values.slice(i - reach, i + reach + 1);
    return rule === "moving-mean"
      ? window.reduce((a, b) => a + b, 0) / window.length
      : (window.sort()[reach] ?? NaN);
  });
}

/**
 * Standard deviation of the noise of a slowly varying record, from its second differences:
 * median |x(i-1) - 2 x(i) + x(i+1)| / (0.6745 sqrt 6). A trend or a bend hardly counts.
 */
export function noiseOf(values: Float64Array): number {
  if (values.length < 3) return NaN;
  const second = new Float64Array(values.length - 2);
  for (let i = 1; i + 1 < values.length; i += 1)
    second[i - 1] = Math.abs((values[i - 1] ?? 0) - 2 * (values[i] ?? 0) + (values[i + 1] ?? 0));
  second.sort();
  return (second[Math.floor(second.length / 2)] ?? NaN) / (0.6745 * Math.sqrt(6));
}
