import { FEWEST_SERIES, lineBySeries } from "../../statistics";
import { NoMaximumError } from "../../statistics/censoring/censored-likelihood";
import type { TrendLine, TrendQuestion } from "./trend-line";

/** The line of one group read at one value of the variable. */
export interface TrendPrediction {
  readonly group: string;
  readonly x: number;
  /** Whether the value lies beyond the tests of the group. */
  readonly extrapolated: boolean;
  /** Height of the line (of ln y: the median) and its two-sided interval. */
  readonly fitted: number;
  readonly lower: number;
  readonly upper: number;
  /** Lower one-sided 90 % bound of the 5 % fractile; null with its reason. */
  readonly characteristic: number | null;
  readonly reason: string;
}

/**
 * The lines at the values asked for. The bound of the 5 % fractile is that of a further test of a
 * further series with the series effect (`lineBySeries`, from three series), else the tolerance
 * band of least squares.
 */
export function predictionsAt(
  lines: readonly TrendLine[],
  question: TrendQuestion,
): TrendPrediction[] {
  const { at, scale, confidence = 0.95 } = question;
  const back = (value: number): number => (scale === "log" ? Math.exp(value) : value);
  return lines.flatMap((line) => {
    if (line.fit === null) return [];
    const bands = line.fit.predict({ x: at }, { confidence });
    const bound = boundsAt(line, question, at, bands.tolerance);
    return at.map((x, k): TrendPrediction => ({
      group: line.group,
      x,
      extrapolated: x < line.from || x > line.to,
      fitted: back(bands.fitted[k]!),
      lower: back(bands.confidenceLower[k]!),
      upper: back(bands.confidenceUpper[k]!),
      characteristic: bound.values === null ? null : back(bound.values[k]!),
      reason: bound.reason,
    }));
  });
}

/**
 * Lower one-sided 90 % bound of the 5 % fractile along one line, at values of the variable; null
 * where there is none.
 */
export function characteristicAlong(
  line: TrendLine,
  question: TrendQuestion,
  x: readonly number[],
): number[] | null {
  if (line.fit === null) return null;
  const { values } = boundsAt(line, question, x, line.fit.predict({ x }).tolerance);
  if (values === null) return null;
  return Array.from(values, (value) => (question.scale === "log" ? Math.exp(value) : value));
}

function boundsAt(
  { points, series }: TrendLine,
  { scale, seriesEffect, unit: [, several] = ["series", "series"] }: TrendQuestion,
  at: readonly number[],
  tolerance: ArrayLike<number>,
): { readonly values: ArrayLike<number> | null; readonly reason: string } {
  if (!seriesEffect) return { values: tolerance, reason: "" };
  if (series < FEWEST_SERIES)
    return {
      values: null,
      reason: `${series} ${several}; at least ${FEWEST_SERIES} are needed to estimate the variance between ${several}`,
    };
  const kept = points.filter(({ bound, series: name, y }) => !bound && name !== null && y > 0);
  try {
    const values = lineBySeries({
      y: kept.map(({ y }) => (scale === "log" ? Math.log(y) : y)),
      x: kept.map(({ x }) => x),
      series: kept.map(({ series: name }) => name!),
      grid: at,
      fractile: 0.05,
      confidence: 0.9,
    });
    return { values, reason: "" };
  } catch (error) {
    if (error instanceof NoMaximumError || error instanceof RangeError)
      return { values: null, reason: error.message };
    throw error;
  }
}
