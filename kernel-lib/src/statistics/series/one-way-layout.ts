/** The one-way analysis of variance of values in series. */
export interface OneWayLayout {
  readonly n: number;
  readonly series: number;
  /** n₀ = (n − Σ n_i²/n)/(k − 1), the size of E(mean square between) = σ_e² + n₀ σ_b². */
  readonly typicalSize: number;
  readonly mean: number;
  readonly meanSquareBetween: number;
  /** 0 where no series has two values. */
  readonly meanSquareWithin: number;
}

/** Count, sum and sum of squares of one series. */
export interface SeriesSums {
  count: number;
  sum: number;
  squares: number;
}

/** Sums of each series. */
export function seriesSums(
  values: readonly number[],
  series: readonly (string | number)[],
): SeriesSums[] {
  const sums = new Map<string | number, SeriesSums>();
  values.forEach((value, i) => {
    const label = series[i] ?? "";
    const one = sums.get(label) ?? { count: 0, sum: 0, squares: 0 };
    addTo(one, value);
    sums.set(label, one);
  });
  return [...sums.values()];
}

/** Adds one value to the sums of its series. */
export function addTo(series: SeriesSums, value: number): void {
  series.count += 1;
  series.sum += value;
  series.squares += value * value;
}

/**
 * The layout from the sums of its series; those without a value are passed over. Null with fewer
 * than two series.
 */
export function oneWayLayout(all: readonly SeriesSums[]): OneWayLayout | null {
  let [n, k, sum, squares, ofSizes, ofMeans] = [0, 0, 0, 0, 0, 0];
  for (const one of all) {
    if (one.count === 0) continue;
    n += one.count;
    k += 1;
    sum += one.sum;
    squares += one.squares;
    ofSizes += one.count * one.count;
    ofMeans += (one.sum * one.sum) / one.count;
  }
  if (k < 2) return null;
  return {
    n,
    series: k,
    typicalSize: (n - ofSizes / n) / (k - 1),
    mean: sum / n,
    meanSquareBetween: Math.max(0, ofMeans - (sum * sum) / n) / (k - 1),
    meanSquareWithin: n > k ? Math.max(0, squares - ofMeans) / (n - k) : 0,
  };
}
