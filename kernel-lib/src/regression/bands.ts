import { noncentralT } from "../statistics/distributions/noncentral-t";
import { normal } from "../statistics/distributions/normal";
import { gatherNewColumns, type NumericColumn } from "./model-rows";
import { multiply, quadraticForm } from "./orthogonal-solve";
import { twoSidedQuantile } from "./coefficient-table";
import { RegressionError } from "./regression-error";

export interface BandOptions {
  /** Confidence of the two-sided confidence and prediction bands; default 0.95. */
  readonly confidence?: number;
  /** Fractile that the tolerance band bounds from below; default 0.05. */
  readonly fractile?: number;
  /** One-sided confidence of the tolerance band; default 0.90. */
  readonly toleranceConfidence?: number;
}

/** Bands at new rows; NaN where a new row has a missing value. All in the units of y. */
export interface Bands {
  readonly confidence: number;
  readonly fractile: number;
  readonly toleranceConfidence: number;
  readonly fitted: Float64Array;
  /** Variance of the fitted value over the residual variance, x0' (X'WX)^-1 x0. */
  readonly leverage: Float64Array;
  readonly confidenceLower: Float64Array;
  readonly confidenceUpper: Float64Array;
  readonly predictionLower: Float64Array;
  readonly predictionUpper: Float64Array;
  /**
   * Lower bound of the fractile (below half) or upper bound (above half) with the stated
   * confidence.
   */
  readonly tolerance: Float64Array;
}

/** What the bands need to know of a fitted linear model. */
export interface FittedLine {
  readonly names: readonly string[];
  readonly estimates: Float64Array;
  /** Covariance of the coefficients. */
  readonly covariance: readonly Float64Array[];
  readonly residualSd: number;
  /** Degrees of freedom of the residual SD. */
  readonly residualDf: number;
  /** Degrees of freedom of the coefficients' t-values. */
  readonly coefficientDf: number;
}

/**
 * Confidence, prediction and one-sided tolerance bands of a linear model at new rows.
 *
 * With h0 = x0' (X'X)^-1 x0 and z the standard normal quantile of `fractile`:
 * - confidence: fit +- t s sqrt(h0); prediction of one new value: fit +- t s sqrt(1 + h0);
 * - tolerance: fit - s sqrt(h0) t'(toleranceConfidence; n - p, -z / sqrt(h0)), t' the noncentral-t
 *   quantile. The bound lies below the fractile of y at x0 with exactly the stated confidence when
 *   the errors are normal with one scatter (point by point, not for the whole line at once).
 *
 * @throws RegressionError missing_column, unequal_lengths, invalid_option
 */
export function bandsAt(
  line: FittedLine,
  columns: Readonly<Record<string, NumericColumn>>,
  options: BandOptions = {},
): Bands {
  const confidence = requireShare(options.confidence ?? 0.95, "confidence");
  const fractile = requireShare(options.fractile ?? 0.05, "fractile");
  const toleranceConfidence = requireShare(
    options.toleranceConfidence ?? 0.9,
    "toleranceConfidence",
  );
  const gathered = gatherNewColumns(line.names, columns);
  const fitted = multiply(gathered, line.estimates);
  const t = twoSidedQuantile(confidence, line.coefficientDf);
  const s = line.residualSd;
  const each = (value: (i: number) => number): Float64Array =>
    Float64Array.from(fitted, (fit, i) => (Number.isNaN(fit) ? NaN : value(i)));
  const variance = each((i) => quadraticForm(gathered, i, line.covariance));
  const leverage = each((i) => (s > 0 ? variance[i]! / (s * s) : 0));
  const factor = toleranceFactors(fractile, toleranceConfidence, line.residualDf);
  return {
    confidence,
    fractile,
    toleranceConfidence,
    fitted,
    leverage,
    confidenceLower: each((i) => fitted[i]! - t * Math.sqrt(variance[i]!)),
    confidenceUpper: each((i) => fitted[i]! + t * Math.sqrt(variance[i]!)),
    predictionLower: each((i) => fitted[i]! - t * Math.sqrt(variance[i]! + s * s)),
    predictionUpper: each((i) => fitted[i]! + t * Math.sqrt(variance[i]! + s * s)),
    tolerance: each((i) => fitted[i]! - (fractile <= 0.5 ? 1 : -1) * factor(leverage[i]!) * s),
  };
}

/** k(h) of the tolerance bound fit - k s; leverages that repeat are computed once. */
function toleranceFactors(
  fractile: number,
  confidence: number,
  df: number,
): (leverage: number) => number {
  const z = Math.abs(normal().quantile(fractile));
  const known = new Map<number, number>();
  return (leverage) => {
    let k = known.get(leverage);
    if (k === undefined) {
      k = toleranceFactorAtLeverage(leverage, df, z, confidence);
      known.set(leverage, k);
    }
    return k;
  };
}

/**
 * Exact one-sided tolerance factor k of fit - k s at leverage h: sqrt(h) t'(confidence; df, z /
 * sqrt(h)). At the mean of n equal rows h = 1/n and k is the usual factor of a sample.
 *
 * @example
 * toleranceFactorAtLeverage(1 / 10, 9, 1.6448536269514722, 0.9) // 2.568: n = 10, 5 % fractile
 */
export function toleranceFactorAtLeverage(
  leverage: number,
  df: number,
  z: number,
  confidence: number,
): number {
  if (leverage <= 0) return z;
  const root = Math.sqrt(leverage);
  return root * noncentralT(df, z / root).quantile(confidence);
}

/** Throws invalid_option unless 0 < value < 1. */
export function requireShare(value: number, name: string): number {
  if (!(value > 0 && value < 1))
    throw new RegressionError(
      "invalid_option",
      `${name} is ${value}, expected a fraction between 0 and 1`,
    );
  return value;
}
