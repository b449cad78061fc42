import type { SeriesOfTests } from "./series-of-tests";

/**
 * MS_between/MS_within from which the tests of a series count as one: the weights over the correlation reach to ratios of e^14, and beyond e^9
 * what lies between the tests of a series moves a bound by less than 0.5 % of its SD.
 */
export const ALL_BUT_EQUAL = Math.exp(9);

/**
 * Series whose tests are all but equal next to the scatter between series, as where one result stands in the data several times: each becomes
 * one test, its mean (intraclass correlation 1). A lower bound beside a failure then says nothing more; of lower bounds alone the highest counts.
 * @returns null where they are not, or where a series has one failure each anyway
 */
export function asSingleTests(series: readonly SeriesOfTests[]): SeriesOfTests[] | null {
  const failed = series.filter(({ failures }) => failures > 0);
  const n = failed.reduce((sum, { failures }) => sum + failures, 0);
  if (failed.length < 2 || n === failed.length) return null;
  const mean = failed.reduce((sum, one) => sum + one.failures * one.mean, 0) / n;
  const between = failed.reduce((sum, one) => sum + one.failures * (one.mean - mean) ** 2, 0) / (failed.length - 1);
  const within = failed.reduce((sum, { squares }) => sum + squares, 0) / (n - failed.length);
  if (!(between > ALL_BUT_EQUAL * within)) return null;
  return series.map((one) => (one.failures > 0 ? { failures: 1, mean: one.mean, squares: 0, limits: [] } : { ...one, limits: [Math.max(...one.limits)] }));
}
