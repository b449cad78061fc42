import { rowDiagnostics } from "../../regression";
import type { TrendByGroup } from "./trend";

/** A test that deserves a look: far off its line, or one that moves the line alone. */
export interface TrendOutlier {
  readonly label: string;
  readonly group: string;
  readonly x: number;
  readonly y: number;
  readonly studentized: number;
  readonly cookDistance: number;
}

/**
 * The tests with a studentized residual above 3 or a Cook's distance above 1 about the line of
 * their group (`rowDiagnostics`). None is removed.
 * @example trendOutliers(trend).map(({ label }) => label)
 */
export function trendOutliers({ lines, fitted }: TrendByGroup): TrendOutlier[] {
  return lines.flatMap(({ fit, group }) => {
    if (fit === null) return [];
    const { flagged, studentised, cookDistance } = rowDiagnostics(fit);
    return flagged.map((row): TrendOutlier => {
      const { label, x, y } = fitted[row]!;
      const k = fit.rows.indexOf(row);
      return { label, group, x, y, studentized: studentised[k]!, cookDistance: cookDistance[k]! };
    });
  });
}
