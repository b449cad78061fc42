/**
 * Named rules for a sample quantile (Hyndman and Fan, "Sample quantiles in statistical packages",
 * 1996).
 */
export type QuantileType =
  | "type 6: mean of the order statistic"
  | "type 7: spreadsheet and R default"
  | "type 8: nearly median-unbiased";

/**
 * Sample quantile by a named rule: linear between order statistics at position h.
 *
 * Type 6: h = (n + 1)p. Type 7: h = (n − 1)p + 1. Type 8: h = (n + ⅓)p + ⅓.
 * @returns null for an empty sample
 * @throws RangeError for p outside 0…1
 * @example sampleQuantile([1, 2, 3, 4], 0.25) // 1.4166… by type 8
 */
export function sampleQuantile(
  values: ArrayLike<number>,
  p: number,
  type: QuantileType = "type 8: nearly median-unbiased",
): number | null {
  if (!(p >= 0 && p <= 1))
    throw new RangeError(`sampleQuantile: p is ${p}, expected a number from 0 to 1`);
  const sorted = Float64Array.from(values)
    .filter((value) => !Number.isNaN(value))
    .sort();
  const n = sorted.length;
  if (n === 0) return null;
  const h = position(n, p, type);
  // Rounding in h must not move a quantile that lies exactly on an order statistic.
  const near = Math.round(h);
  const at = Math.min(n, Math.max(1, Math.abs(h - near) < 4e-15 * n ? near : h));
  const below = Math.floor(at);
  const low = sorted[below - 1]!;
  const high = sorted[Math.min(n, below + 1) - 1]!;
  return low + (at - below) * (high - low);
}

function position(n: number, p: number, type: QuantileType): number {
  switch (type) {
    case "type 6: mean of the order statistic":
      return (n + 1) * p;
    case "type 7: spreadsheet and R default":
      return (n - 1) * p + 1;
    case "type 8: nearly median-unbiased":
      return (n + 1 / 3) * p + 1 / 3;
    default:
      throw new RangeError(
        `sampleQuantile: type is ${String(type)}, expected one of the named types 6, 7 or 8`,
      );
  }
}
