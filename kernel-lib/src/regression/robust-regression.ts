import { requireShare } from "./bands";
import { coefficientTable, type Coefficient } from "./coefficient-table";
import { isTold, signed } from "./least-squares-reading";
import { namedCoefficient } from "./least-squares";
import { gatherRows, INTERCEPT, type NumericColumn } from "./model-rows";
import { solveOrthogonally, unscaledCovariance } from "./orthogonal-solve";
import { RegressionError } from "./regression-error";
import { setAsideWords, type RegressionStatement } from "./statement";
import { counted, intervalWords, pWords, significant } from "../statistics/reading";

export interface RobustRegressionInput {
  readonly y: NumericColumn;
  readonly columns: Readonly<Record<string, NumericColumn>>;
  readonly intercept?: boolean;
  /**
   * "huber" limits the pull of far rows (default); "bisquare" takes rows far off out altogether.
   */
  readonly psi?: "huber" | "bisquare";
  /**
   * Tuning constant in scales; default 1.345 (Huber) or 4.685 (bisquare), 95 % efficient for normal
   * errors.
   */
  readonly tuning?: number;
  readonly confidence?: number;
  readonly response?: string;
}

export interface RobustRegression extends RegressionStatement {
  readonly coefficients: readonly Coefficient[];
  /** Median absolute residual / 0.6745. */
  readonly scale: number;
  /** Weight of each row used, 0 to 1. */
  readonly rowWeights: Float64Array;
  readonly rows: Int32Array;
  readonly residuals: Float64Array;
  readonly iterations: number;
  coefficient(name: string): Coefficient;
}

/**
 * M-estimation (Huber 1981) by iteratively reweighted least squares, scale = median |e| / 0.6745 at
 * each step. The bisquare starts from the Huber fit, since its objective has many minima. Standard
 * errors by Huber's formula; t on n - p degrees of freedom. Guards against rows far off in y, not
 * in x.
 *
 * @throws RegressionError too_few_rows, no_convergence (also when more than half of the rows lie on
 *   one line exactly)
 */
export function robustRegression(input: RobustRegressionInput): RobustRegression {
  const psi = input.psi ?? "huber";
  const confidence = requireShare(input.confidence ?? 0.95, "confidence");
  const tuning = input.tuning ?? (psi === "huber" ? 1.345 : 4.685);
  if (!(tuning > 0))
    throw new RegressionError(
      "invalid_option",
      `The tuning constant is ${tuning}, expected a number above 0`,
    );
  const model = gatherRows(input);
  const p = model.columns.length;
  if (model.n < p + 2)
    throw new RegressionError(
      "too_few_rows",
      `Robust regression with ${p} coefficients needs at least ${p + 2} usable rows: got ${model.n}`,
    );
  const solve = (weights: Float64Array | null): Float64Array =>
    solveOrthogonally(model.columns, model.y, model.names, weights).residuals;
  let state = iterate(solve, solve(null), "huber", psi === "huber" ? tuning : 1.345);
  if (psi === "bisquare") state = iterate(solve, state.residuals, "bisquare", tuning);
  const { residuals, scale, weights, iterations } = state;
  const kept = weights.map((w) => Math.max(w, 1e-300));
  const estimates = solveOrthogonally(model.columns, model.y, model.names, kept).estimates;
  const plain = solveOrthogonally(model.columns, model.y, model.names);
  const df = model.n - p;
  // Huber's correction: K^2 [sum psi^2 / (n - p)] / (mean psi')^2 (X'X)^-1.
  let squares = 0;
  const slopes = residuals.map((e, i) => {
    squares += (e * weights[i]!) ** 2;
    return slopeOf(e / scale, psi, tuning);
  });
  const mean = slopes.reduce((s, v) => s + v, 0) / model.n;
  const variance = slopes.reduce((s, v) => s + (v - mean) ** 2, 0) / (model.n - 1);
  const factor = ((1 + (p * variance) / (model.n * mean * mean)) / mean) ** 2 * (squares / df);
  const covariance = unscaledCovariance(plain.inverseR).map((row) => row.map((v) => v * factor));
  const coefficients = coefficientTable(
    model.names,
    estimates,
    { covariance, degreesOfFreedom: df },
    confidence,
  );
  const down = Array.from(weights).filter((w) => w < 0.5).length;
  const slopesWords = coefficients
    .filter((c) => c.name !== INTERCEPT || p === 1)
    .map(
      (c) =>
        `${c.name} ${isTold(c) ? signed(c.estimate) : "in a direction that is not established"} (${intervalWords(c.lower, c.upper, confidence)}, ${pWords(c.p)})`,
    );
  return {
    coefficients,
    scale,
    rowWeights: weights,
    rows: model.rows,
    residuals,
    iterations,
    method: `M-estimation, ${psi === "huber" ? "Huber" : "Tukey bisquare"} (tuning ${tuning})`,
    assumptions: [
      "errors are symmetric",
      "few rows are outliers in y; the method does not protect against outliers in x",
      "rows are independent",
    ],
    n: model.n,
    excluded: model.excluded,
    warnings:
      down > 0
        ? [`${counted(down, "row")} weighted below one half; check these rows, none is removed`]
        : [],
    reading: `With outliers given less weight, ${input.response ?? "y"} varies with ${slopesWords.join(", ")}; scale ${significant(scale)} (${counted(model.n, "row")}, ${down} weighted below one half${setAsideWords(model.excluded)}).`,
    coefficient: (name) => namedCoefficient(coefficients, name),
  };
}

interface RobustState {
  readonly residuals: Float64Array;
  readonly scale: number;
  readonly weights: Float64Array;
  readonly iterations: number;
}

function iterate(
  solve: (weights: Float64Array) => Float64Array,
  start: Float64Array,
  psi: "huber" | "bisquare",
  tuning: number,
): RobustState {
  let residuals = start;
  for (let iteration = 1; iteration <= 500; iteration += 1) {
    const scale = medianAbsolute(residuals) / 0.6745;
    const size = residuals.reduce((top, e) => Math.max(top, Math.abs(e)), 0);
    if (!(scale > 1e-12 * size))
      throw new RegressionError(
        "no_convergence",
        "More than half of the rows lie on one line exactly, so no robust scale exists: expected some scatter",
      );
    const weights = residuals.map((e) => weightOf(e / scale, psi, tuning));
    const next = solve(weights.map((w) => Math.max(w, 1e-300)));
    let change = 0;
    let total = 0;
    next.forEach((e, i) => {
      change += (e - residuals[i]!) ** 2;
      total += e * e;
    });
    residuals = next;
    if (change <= 1e-24 * total) return { residuals, scale, weights, iterations: iteration };
  }
  throw new RegressionError(
    "no_convergence",
    "Robust regression did not converge in 500 steps: expected more rows or a different psi",
  );
}

function weightOf(u: number, psi: "huber" | "bisquare", c: number): number {
  const a = Math.abs(u);
  if (psi === "huber") return a <= c ? 1 : c / a;
  return a < c ? (1 - (u / c) ** 2) ** 2 : 0;
}

function slopeOf(u: number, psi: "huber" | "bisquare", c: number): number {
  const a = Math.abs(u);
  if (psi === "huber") return a <= c ? 1 : 0;
  const t = (u / c) ** 2;
  return t < 1 ? (1 - t) * (1 - 5 * t) : 0;
}

function medianAbsolute(values: Float64Array): number {
  const sorted = values.map(Math.abs).sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
