import {
  layoutOf,
  type SeriesOfTests,
  type TestsAtPoint,
  type TestsInSeries,
} from "./tests-in-series";

/**
 * MS_between/MS_within from which the tests of a series count as one: beyond e^9 what lies between
 * the tests of a series moves a bound by less than 0.5 % of its SD, while with no scatter at all
 * the likelihood has no maximum.
 */
const ALL_BUT_EQUAL = Math.exp(9);

/**
 * Series whose tests are all but equal next to the scatter between series, as where one result
 * stands in the data several times: each becomes one test, its mean (intraclass correlation 1). A
 * lower bound beside a failure then adds nothing; of lower bounds alone the highest counts.
 * @returns null where they are not, where a series has one failure each anyway, or where a series
 *   spans several points of the design (its tests then differ by the fixed effects)
 */
export function asSingleTests(tests: TestsInSeries): TestsInSeries | null {
  const { failures, failedSeries, between } = layoutOf(tests);
  if (failures === failedSeries || between < 1) return null;
  if (tests.series.some((parts) => parts.filter((part) => part.failures > 0).length > 1))
    return null;
  const failed = tests.series.flatMap((parts) => parts.filter((part) => part.failures > 0));
  const within = failed.reduce((sum, { squares }) => sum + squares, 0) / (failures - failedSeries);
  // About the mean of each point, which is the largest that fixed effects can leave between series.
  const means = new Map<number, { n: number; sum: number }>();
  for (const { point, failures: n, mean } of failed) {
    const at = means.get(point) ?? { n: 0, sum: 0 };
    means.set(point, { n: at.n + n, sum: at.sum + n * mean });
  }
  const squares = failed.reduce(
    (sum, { point, failures: n, mean }) =>
      sum + n * (mean - means.get(point)!.sum / means.get(point)!.n) ** 2,
    0,
  );
  if (!(squares / between > ALL_BUT_EQUAL * within)) return null;
  return { points: tests.points, series: tests.series.map(single) };
}

function single(parts: SeriesOfTests): SeriesOfTests {
  const failed = parts.find((part) => part.failures > 0);
  if (failed)
    return [{ point: failed.point, failures: 1, mean: failed.mean, squares: 0, limits: [] }];
  return parts.map((part): TestsAtPoint => ({ ...part, limits: [Math.max(...part.limits)] }));
}
