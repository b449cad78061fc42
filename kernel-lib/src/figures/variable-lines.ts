import { leastSquares, RegressionError } from "../regression";
import type { FittedLine } from "./fitted-line";
import { seriesOf } from "./point-figure";
import type { VariableTest } from "./ratio-against-variable";

/**
 * A least-squares line of the ratio for each class, lower bounds omitted, as `fits` of
 * `ratioAgainstVariable`; a class that gives no line has none.
 * @param band two-sided confidence of a band about the line, series effect ignored; none by default
 */
export function variableLines(tests: readonly VariableTest[], band?: number): FittedLine[] {
  return seriesOf(tests).flatMap((series) => {
    const own = tests.filter(
      (one) => one.series === series && !one.censored && Number.isFinite(one.x + one.ratio),
    );
    try {
      const fit = leastSquares({
        y: own.map(({ ratio }) => ratio),
        columns: { x: own.map(({ x }) => x) },
      });
      const places = own.map(({ x }) => x);
      const ends = [Math.min(...places), Math.max(...places)];
      if (band === undefined)
        return [{ series, x: ends, y: Array.from(fit.predict({ x: ends }).fitted) }];
      const x = stepsBetween(ends[0]!, ends[1]!);
      const found = fit.predict({ x }, { confidence: band });
      return [
        {
          series,
          x,
          y: Array.from(found.fitted),
          lower: Array.from(found.confidenceLower),
          upper: Array.from(found.confidenceUpper),
        },
      ];
    } catch (error) {
      if (error instanceof RegressionError) return [];
      throw error;
    }
  });
}

const STEPS = 24;

const stepsBetween = (low: number, high: number): number[] =>
  Array.from({ length: STEPS + 1 }, (_, k) => low + ((high - low) * k) / STEPS);
