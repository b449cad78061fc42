import type { TestsInSeries } from "./tests-in-series";

/**
 * Sums of the failures that the likelihood of tests in series needs, whatever the correlation is.
 */
export interface FailureSums {
  /** Number of fixed effects, p. */
  readonly effects: number;
  readonly failures: number;
  /** Failures of each series with their means of x (length p) and y; `null` sizes are left out. */
  readonly series: readonly { readonly n: number; readonly x: Float64Array; readonly y: number }[];
  /** Sums about the means of the series: of x x' (p x p), x y (p) and y y. */
  readonly insideX: Float64Array;
  readonly insideXY: Float64Array;
  readonly insideY: number;
}

/** Sums of the failures by series and about the means of the series. */
export function failureSums({ series, points }: TestsInSeries): FailureSums {
  const p = points[0]?.length ?? 0;
  const [insideX, insideXY] = [new Float64Array(p * p), new Float64Array(p)];
  let [insideY, failures] = [0, 0];
  const sums: { n: number; x: Float64Array; y: number }[] = [];
  for (const parts of series) {
    const n = parts.reduce((sum, part) => sum + part.failures, 0);
    if (n === 0) continue;
    failures += n;
    const x = new Float64Array(p);
    let y = 0;
    for (const { point, failures: m, mean } of parts) {
      y += (m / n) * mean;
      for (let j = 0; j < p; j += 1) x[j]! += (m / n) * points[point]![j]!;
    }
    for (const { point, failures: m, mean, squares } of parts) {
      insideY += squares + m * (mean - y) ** 2;
      if (parts.length === 1) continue;
      const apart = points[point]!.map((value, j) => value - x[j]!);
      for (let j = 0; j < p; j += 1) {
        insideXY[j]! += m * apart[j]! * (mean - y);
        for (let k = 0; k < p; k += 1) insideX[j * p + k]! += m * apart[j]! * apart[k]!;
      }
    }
    sums.push({ n, x, y });
  }
  return { effects: p, failures, series: sums, insideX, insideXY, insideY };
}
