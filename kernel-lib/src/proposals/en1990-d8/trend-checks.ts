import { leastSquares } from "../../regression";
import { adjustPValues } from "../../statistics";

/** Whether the correction drifts with one variable. */
export interface TrendCheck {
  readonly variable: string;
  readonly n: number;
  /**
   * Slope of ln δ against the variable, per unit of the variable; null where the variable does not
   * vary.
   */
  readonly slope: number | null;
  /** Change of δ over the tested range of the variable by that slope, as a ratio (1: none). */
  readonly overRange: number | null;
  readonly p: number | null;
  /** p after Holm's correction for all variables looked at. */
  readonly pAdjusted: number | null;
  readonly trend: "trend" | "no trend found" | "cannot be estimated";
  readonly reading: string;
}

/**
 * The check that EN 1990:2002 D.8.2.2.5 asks for: the correction term must not depend
 * systematically on any variable of the resistance function. Straight line of ln δ on each
 * variable, two-sided t-test, Holm's correction over all.
 * @param delta δ_i of each test
 * @param variables columns by name, each as long as delta; missing values (NaN) are left out
 * @param level share of false alarms over all variables, default 0.05
 */
export function trendChecks(
  delta: readonly number[],
  variables: Readonly<Record<string, ArrayLike<number>>>,
  level: number = 0.05,
): TrendCheck[] {
  const found = Object.entries(variables).map(([variable, column]) =>
    lineOf(variable, delta, column),
  );
  const told = found.filter(({ p }) => p !== null);
  const adjusted = new Map(
    adjustPValues(
      told.map(({ p }) => p ?? 1),
      "holm",
    ).map((p, k) => [told[k], p] as const),
  );
  return found.map((one) => {
    const pAdjusted = adjusted.get(one) ?? null;
    const trend =
      pAdjusted === null ? "cannot be estimated" : pAdjusted < level ? "trend" : "no trend found";
    return {
      ...one,
      pAdjusted,
      trend,
      reading: read(one.variable, one.n, one.overRange, pAdjusted, trend),
    };
  });
}

function lineOf(
  variable: string,
  delta: readonly number[],
  column: ArrayLike<number>,
): Omit<TrendCheck, "pAdjusted" | "trend" | "reading"> {
  if (column.length !== delta.length)
    throw new RangeError(
      `trendChecks: ${variable} has ${column.length} values for ${delta.length} tests, expected one each`,
    );
  const rows = delta.map((_, i) => i).filter((i) => Number.isFinite(column[i] ?? NaN));
  const x = rows.map((i) => column[i] ?? NaN);
  const [low, high] = [Math.min(...x), Math.max(...x)];
  if (rows.length < 4 || !(high - low > 1e-9 * Math.max(Math.abs(low), Math.abs(high))))
    return { variable, n: rows.length, slope: null, overRange: null, p: null };
  const line = leastSquares({
    y: rows.map((i) => Math.log(delta[i] ?? NaN)),
    columns: { x },
  }).coefficient("x");
  return {
    variable,
    n: rows.length,
    slope: line.estimate,
    overRange: Math.exp(line.estimate * (high - low)),
    p: line.p,
  };
}

function read(
  variable: string,
  n: number,
  overRange: number | null,
  p: number | null,
  trend: TrendCheck["trend"],
): string {
  if (overRange === null || p === null)
    return `${variable}: cannot be estimated with ${n} tests and too little variation of the variable.`;
  const change = `the correction changes by a factor of ${overRange.toFixed(2)} over the tested range (p = ${p < 0.001 ? "below 0.001" : p.toFixed(3)} after correction, n = ${n})`;
  return trend === "trend"
    ? `${variable}: ${change}; correct the resistance function or divide the tests into subsets.`
    : `${variable}: no trend found; ${change}.`;
}
