/**
 * Finite numbers in rising order, in place where that is quicker: each goes straight to its share of the range, and one
 * pass of insertion puts neighbours right. Replicates of a bootstrap lie evenly enough for that to need a few steps a
 * number; where many share one place (ties, a far outlier) the general sort is used. Both give the same order.
 */
export function sortReplicates(values: Float64Array): Float64Array {
  const n = values.length;
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < n; i += 1) {
    const value = values[i]!;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  const scale = (n - 1) / (high - low);
  if (n < 200 || !Number.isFinite(scale)) return values.sort();
  const starts = new Int32Array(n + 1);
  for (let i = 0; i < n; i += 1) {
    const place = (((values[i]! - low) * scale) | 0) + 1;
    starts[place] = starts[place]! + 1;
  }
  for (let k = 1; k <= n; k += 1) {
    if (starts[k]! > 50) return values.sort();
    starts[k] = starts[k]! + starts[k - 1]!;
  }
  const sorted = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    const value = values[i]!;
    const place = ((value - low) * scale) | 0;
    const at = starts[place]!;
    starts[place] = at + 1;
    sorted[at] = value;
  }
  for (let i = 1; i < n; i += 1) {
    const value = sorted[i]!;
    let at = i;
    for (; at > 0 && sorted[at - 1]! > value; at -= 1) sorted[at] = sorted[at - 1]!;
    sorted[at] = value;
  }
  return sorted;
}
