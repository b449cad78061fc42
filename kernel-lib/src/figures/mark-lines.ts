import { leastSquares, RegressionError } from "../regression";
import type { FittedLine } from "./fitted-line";
import { classOf, type MarkPoint, type MarkScale } from "./mark-point";

/** A line of one's own figure. */
export type MarkLine = "none" | "least squares" | "equal";

const STEPS = 24;

/**
 * The lines of one panel: y = x, or one of least squares for each class, in the logarithms of log
 * axes; lower bounds are omitted. A class that gives no line has none.
 */
export function markLines(
  points: readonly MarkPoint[],
  { x, y, line }: { readonly x: MarkScale; readonly y: MarkScale; readonly line: MarkLine },
): FittedLine[] {
  if (line === "none" || points.length === 0) return [];
  if (line === "equal") {
    const values = points.flatMap((one) => [one.x, one.y]);
    const ends = [values.reduce((a, b) => Math.min(a, b)), values.reduce((a, b) => Math.max(a, b))];
    return [{ series: classOf(points[0]!), x: ends, y: ends }];
  }
  return [...new Set(points.map(classOf))].flatMap((series) => {
    const own = points.filter((one) => classOf(one) === series && one.bound === null);
    const places = own.map((one) => (x.log ? Math.log(one.x) : one.x));
    const heights = own.map((one) => (y.log ? Math.log(one.y) : one.y));
    try {
      const fit = leastSquares({ y: heights, columns: { x: places } });
      const [from, to] = [Math.min(...places), Math.max(...places)];
      const grid = Array.from({ length: STEPS + 1 }, (_, i) => from + ((to - from) * i) / STEPS);
      const { fitted } = fit.predict({ x: grid });
      return [
        {
          series,
          x: grid.map((one) => (x.log ? Math.exp(one) : one)),
          y: Array.from(fitted, (one) => (y.log ? Math.exp(one) : one)),
        },
      ];
    } catch (error) {
      if (error instanceof RegressionError) return [];
      throw error;
    }
  });
}
