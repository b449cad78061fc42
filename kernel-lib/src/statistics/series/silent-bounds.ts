import type { TestsInSeries } from "./tests-in-series";

/**
 * SD of all failures below the failures of its point from which a lower bound says nothing: ln of
 * its probability is below 1e-9.
 */
const SILENT = 6;

/**
 * Without lower bounds that lie so far below the failures of the same fixed effects that they
 * change no digit shown.
 */
export function withoutSilentBounds({ series, points }: TestsInSeries): TestsInSeries {
  const failed = series.flatMap((parts) => parts.filter(({ failures }) => failures > 0));
  const n = failed.reduce((sum, { failures }) => sum + failures, 0);
  const mean = failed.reduce((sum, one) => sum + (one.failures / n) * one.mean, 0);
  const sd = Math.sqrt(
    failed.reduce((sum, one) => sum + one.squares + one.failures * (one.mean - mean) ** 2, 0) /
      Math.max(1, n - 1),
  );
  const lowest = new Map<number, number>();
  for (const { point, mean: at } of failed)
    lowest.set(point, Math.min(lowest.get(point) ?? Infinity, at));
  const informs = (point: number, limit: number): boolean =>
    !(limit < (lowest.get(point) ?? -Infinity) - SILENT * sd);
  const kept = series.map((parts) =>
    parts.map((part) => ({
      ...part,
      limits: part.limits.filter((limit) => informs(part.point, limit)),
    })),
  );
  return {
    points,
    series: kept.filter((parts) =>
      parts.some(({ failures, limits }) => failures > 0 || limits.length > 0),
    ),
  };
}
