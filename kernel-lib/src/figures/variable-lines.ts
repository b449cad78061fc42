import { leastSquares, RegressionError } from "../regression";
import type { FittedLine } from "./fitted-line";
import { seriesOf } from "./point-figure";
import type { VariableTest } from "./ratio-against-variable";

/**
 * A least-squares line of the ratio for each class, lower bounds omitted, as `fits` of
 * `ratioAgainstVariable`; a class that gives no line has none.
 */
export function variableLines(tests: readonly VariableTest[]): FittedLine[] {
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
      return [{ series, x: ends, y: Array.from(fit.predict({ x: ends }).fitted) }];
    } catch (error) {
      if (error instanceof RegressionError) return [];
      throw error;
    }
  });
}
