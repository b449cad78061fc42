/** Tests of one series at one point of the design (one row of the matrix X of fixed effects). */
export interface TestsAtPoint {
  readonly point: number;
  /** Tests that failed, their mean, and the sum of squares about it. */
  readonly failures: number;
  readonly mean: number;
  readonly squares: number;
  /** Lower bounds: tests that were stopped or failed in another mode. */
  readonly limits: readonly number[];
}

/** One series: its tests by point of the design. */
export type SeriesOfTests = readonly TestsAtPoint[];

/** Tests in series with fixed effects: y = X β + b(series) + e. */
export interface TestsInSeries {
  readonly series: readonly SeriesOfTests[];
  /** Rows of X, shape points x p. */
  readonly points: readonly (readonly number[])[];
}

/** Values with the series and the point of the design that each belongs to. */
export interface SeriesSample {
  readonly y: ArrayLike<number>;
  readonly censored: ArrayLike<number | boolean>;
  readonly series: ArrayLike<string | number>;
  /** Row of `points` of each value. */
  readonly pointOf: ArrayLike<number>;
  readonly points: readonly (readonly number[])[];
}

/** Values by series and point, in order of first appearance. */
export function testsInSeries({
  y,
  censored,
  series,
  pointOf,
  points,
}: SeriesSample): TestsInSeries {
  const rows = new Map<string | number, Map<number, number[]>>();
  for (let i = 0; i < y.length; i += 1) {
    const label = series[i]!;
    const own = rows.get(label) ?? new Map<number, number[]>();
    rows.set(label, own);
    const point = pointOf[i]!;
    const there = own.get(point);
    if (there) there.push(i);
    else own.set(point, [i]);
  }
  const all = [...rows.values()].map((own) =>
    [...own].map(([point, at]): TestsAtPoint => {
      const failed = at.filter((i) => !censored[i]).map((i) => y[i]!);
      const mean =
        failed.length === 0 ? 0 : failed.reduce((sum, value) => sum + value, 0) / failed.length;
      const squares = failed.reduce((sum, value) => sum + (value - mean) ** 2, 0);
      return {
        point,
        failures: failed.length,
        mean,
        squares,
        limits: at.filter((i) => censored[i]).map((i) => y[i]!),
      };
    }),
  );
  return { series: all, points };
}

/**
 * Degrees of freedom of a layout, of the failures alone, in units of tests: n0 is the size that
 * makes E(mean square between series) = s_e^2 + n0 s_b^2 of the analysis of variance (Henderson's
 * third method).
 */
export interface Layout {
  readonly failures: number;
  readonly failedSeries: number;
  readonly typicalSize: number;
  readonly between: number;
  readonly within: number;
}

/**
 * The layout of the failures: n0 = tr(Z' M Z)/between, M the projection off the columns of X, Z the
 * series.
 */
export function layoutOf({ series, points }: TestsInSeries): Layout {
  const p = points[0]?.length ?? 0;
  let [failures, failedSeries] = [0, 0];
  const whole = new Float64Array(p * p);
  const inside = new Float64Array(p * p);
  const sums: Float64Array[] = [];
  for (const parts of series) {
    const n = parts.reduce((sum, part) => sum + part.failures, 0);
    if (n === 0) continue;
    failures += n;
    failedSeries += 1;
    const sum = new Float64Array(p);
    for (const { point, failures: m } of parts) addOuter(whole, points[point]!, m, sum);
    for (const { point, failures: m } of parts) {
      if (m === 0) continue;
      const apart = points[point]!.map((x, k) => x - sum[k]! / n);
      addOuter(inside, apart, m);
    }
    sums.push(sum);
  }
  const taken = rankOf(inside, p);
  const factor = solver(whole, p);
  const used = factor.rank;
  const shared = sums.reduce((total, sum) => total + factor.quadratic(sum), 0);
  const between = failedSeries - (used - taken);
  return {
    failures,
    failedSeries,
    typicalSize: (failures - shared) / between,
    between,
    within: failures - failedSeries - taken,
  };
}

function addOuter(
  into: Float64Array,
  x: ArrayLike<number>,
  weight: number,
  sum?: Float64Array,
): void {
  const p = x.length;
  for (let j = 0; j < p; j += 1) {
    if (sum) sum[j]! += weight * x[j]!;
    for (let k = 0; k < p; k += 1) into[j * p + k]! += weight * x[j]! * x[k]!;
  }
}

function rankOf(a: Float64Array, p: number): number {
  return solver(a, p).rank;
}

/**
 * Pivoted Cholesky of a positive semidefinite matrix: its rank, and b' A^- b for b in its range.
 */
function solver(
  a: Float64Array,
  p: number,
): { readonly rank: number; quadratic(b: Float64Array): number } {
  const l = Float64Array.from(a);
  const order = Array.from({ length: p }, (_, k) => k);
  const largest = Math.max(0, ...order.map((k) => a[k * p + k]!));
  let rank = 0;
  for (; rank < p; rank += 1) {
    let best = rank;
    for (let k = rank + 1; k < p; k += 1)
      if (l[order[k]! * p + order[k]!]! > l[order[best]! * p + order[best]!]!) best = k;
    [order[rank], order[best]] = [order[best]!, order[rank]!];
    const pivot = order[rank]!;
    const diagonal = l[pivot * p + pivot]!;
    if (!(diagonal > 1e-10 * largest)) break;
    for (let j = rank + 1; j < p; j += 1) {
      const row = order[j]!;
      const share = l[row * p + pivot]! / diagonal;
      for (let k = rank + 1; k < p; k += 1)
        l[row * p + order[k]!]! -= share * l[pivot * p + order[k]!]!;
    }
  }
  const quadratic = (b: Float64Array): number => {
    const rest = Float64Array.from(b);
    let value = 0;
    for (let j = 0; j < rank; j += 1) {
      const pivot = order[j]!;
      const diagonal = l[pivot * p + pivot]!;
      value += rest[pivot]! ** 2 / diagonal;
      for (let k = j + 1; k < p; k += 1)
        rest[order[k]!]! -= (l[pivot * p + order[k]!]! / diagonal) * rest[pivot]!;
    }
    return value;
  };
  return { rank, quadratic };
}
