import { NoMaximumError } from "../censoring/censored-likelihood";
import { choleskyInPlace, choleskySolveInPlace } from "../linear-algebra/cholesky";
import { failureSums, type FailureSums } from "./failure-sums";
import { fitWithLowerBounds, type FitAtCorrelation } from "./fit-with-lower-bounds";
import type { Correlation } from "./lower-bound-terms";
import type { TestsInSeries } from "./tests-in-series";

/** What a fit says of one combination c'beta of the fixed effects, such as the mean of a cell. */
export interface FitOfMean {
  readonly mean: number;
  readonly sd: number;
  /**
   * Information of (c'beta, ln sd) with all other effects free: mean-mean, mean-ln sd, ln sd-ln sd.
   */
  readonly information: readonly [number, number, number];
  /** Number of fixed effects, p. */
  readonly effects: number;
}

/**
 * A function that fits the tests at one correlation after the other; each fit starts from the one
 * before.
 */
export type FitsOf = (correlation: Correlation) => FitAtCorrelation;

/**
 * Maximum of the likelihood of tests in series at a given intraclass correlation rho:
 * y = x'beta + sigma (sqrt(rho) u + sqrt(1 - rho) e), u one a series and e one a test, both
 * standard normal; a lower bound counts as the probability of lying above it.
 *
 * Without lower bounds by generalised least squares (weights n/(1 + (n - 1) rho) of the series
 * means). With them see {@link fitWithLowerBounds}.
 * @throws NoMaximumError where the failures do not scatter, where an effect has no failure to be
 *   estimated from, or after 100 steps
 */
export function fitsOf(tests: TestsInSeries): FitsOf {
  const sums = failureSums(tests);
  if (sums.failures < sums.effects + 1)
    throw new NoMaximumError(
      `${sums.failures} failures are too few to estimate ${sums.effects} means and the scatter`,
    );
  const bounds = tests.series.some((parts) => parts.some(({ limits }) => limits.length > 0));
  if (!bounds) return (correlation) => closedForm(sums, correlation);
  let before = closedForm(sums, { value: 0, rest: 1 });
  return (correlation) => {
    before = fitWithLowerBounds(tests, sums, correlation, before);
    return before;
  };
}

/** Generalised least squares, with the information and the integrated likelihood in closed form. */
function closedForm(sums: FailureSums, { value: rho, rest }: Correlation): FitAtCorrelation {
  const { effects: p, failures } = sums;
  const normal = Float64Array.from(sums.insideX, (x) => x / rest);
  const right = Float64Array.from(sums.insideXY, (x) => x / rest);
  let logDeterminant = 0;
  for (const { n, x, y } of sums.series) {
    const inflation = 1 + (n - 1) * rho;
    const weight = n / inflation;
    logDeterminant += (n - 1) * Math.log(rest) + Math.log(inflation);
    for (let j = 0; j < p; j += 1) {
      right[j]! += weight * x[j]! * y;
      for (let k = 0; k < p; k += 1) normal[j * p + k]! += weight * x[j]! * x[k]!;
    }
  }
  const factor = Float64Array.from(normal);
  if (!choleskyInPlace(factor, p))
    throw new NoMaximumError("A mean cannot be estimated because its group has no failure");
  choleskySolveInPlace(factor, p, right);
  const residual = sumOfSquares(sums, right, rho, rest);
  // Values come standardized: less than this is rounding.
  if (!(residual > 1e-13 * failures)) throw new NoMaximumError("The failures have no scatter");
  const variance = residual / failures;
  const information = new Float64Array((p + 1) * (p + 1));
  for (let j = 0; j < p; j += 1)
    for (let k = 0; k < p; k += 1) information[j * (p + 1) + k] = normal[j * p + k]! / variance;
  information[p * (p + 1) + p] = 2 * failures;
  let logNormal = 0;
  for (let j = 0; j < p; j += 1) logNormal += 2 * Math.log(factor[j * p + j]!);
  return {
    correlation: rho,
    effects: right,
    sd: Math.sqrt(variance),
    information,
    logIntegrated: -0.5 * (logDeterminant + (failures - p) * Math.log(residual) + logNormal),
  };
}

/** (y - X beta)' R^-1 (y - X beta) for the correlation matrix R of tests in series. */
function sumOfSquares(sums: FailureSums, beta: Float64Array, rho: number, rest: number): number {
  const p = beta.length;
  let inside = sums.insideY;
  for (let j = 0; j < p; j += 1) {
    inside -= 2 * beta[j]! * sums.insideXY[j]!;
    for (let k = 0; k < p; k += 1) inside += beta[j]! * beta[k]! * sums.insideX[j * p + k]!;
  }
  let between = 0;
  for (const { n, x, y } of sums.series) {
    let error = y;
    for (let j = 0; j < p; j += 1) error -= x[j]! * beta[j]!;
    between += (n / (1 + (n - 1) * rho)) * error * error;
  }
  return Math.max(0, inside) / rest + between;
}

/**
 * What the fit says of c'beta: the information of (c'beta, ln sd) once all other effects are free.
 */
export function meanOf(
  { effects, sd, information }: FitAtCorrelation,
  c: ArrayLike<number>,
): FitOfMean {
  const p = effects.length;
  const factor = Float64Array.from(information);
  if (!choleskyInPlace(factor, p + 1))
    throw new NoMaximumError("The information of the tests in series is singular");
  const along = new Float64Array(p + 1);
  const scale = new Float64Array(p + 1);
  for (let j = 0; j < p; j += 1) along[j] = c[j]!;
  scale[p] = 1;
  choleskySolveInPlace(factor, p + 1, along);
  choleskySolveInPlace(factor, p + 1, scale);
  let [mean, mm, ms] = [0, 0, 0];
  for (let j = 0; j < p; j += 1) {
    mean += c[j]! * effects[j]!;
    mm += c[j]! * along[j]!;
    ms += c[j]! * scale[j]!;
  }
  const ss = scale[p];
  const determinant = mm * ss - ms * ms;
  return {
    mean,
    sd,
    information: [ss / determinant, -ms / determinant, mm / determinant],
    effects: p,
  };
}
