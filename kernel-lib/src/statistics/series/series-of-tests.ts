import type { CensoredSample } from "../censoring/censored-profile";

/** One series, reduced to what its likelihood needs. */
export interface SeriesOfTests {
  /** Tests that failed, their mean, and the sum of squares about it. */
  readonly failures: number;
  readonly mean: number;
  readonly squares: number;
  /** Lower bounds. */
  readonly limits: readonly number[];
}

/** Shares out a sample into its series, in order of first appearance. */
export function seriesOf(sample: CensoredSample, clusters: readonly (string | number)[]): SeriesOfTests[] {
  const rows = new Map<string | number, number[]>();
  clusters.forEach((label, i) => {
    const own = rows.get(label);
    if (own) own.push(i);
    else rows.set(label, [i]);
  });
  return [...rows.values()].map((own) => {
    const failed = own.filter((i) => sample.censored[i] !== 1).map((i) => sample.y[i] ?? NaN);
    const mean = failed.length === 0 ? 0 : failed.reduce((sum, value) => sum + value, 0) / failed.length;
    return { failures: failed.length, mean, squares: failed.reduce((sum, value) => sum + (value - mean) ** 2, 0), limits: own.filter((i) => sample.censored[i] === 1).map((i) => sample.y[i] ?? NaN) };
  });
}

/** Failures, series with a failure, and the size n₀ that makes E(mean square between) = σ_e² + n₀ σ_b² of the one-way analysis of variance. */
export function layoutOf(series: readonly SeriesOfTests[]): { readonly failures: number; readonly groups: number; readonly typicalSize: number } {
  const sizes = series.map(({ failures }) => failures).filter((n) => n > 0);
  const failures = sizes.reduce((sum, n) => sum + n, 0);
  const groups = sizes.length;
  return { failures, groups, typicalSize: groups < 2 ? failures : (failures - sizes.reduce((sum, n) => sum + n * n, 0) / failures) / (groups - 1) };
}
