import { searchMinimum, type ResidualModel } from "../regression/levenberg-marquardt";
import { solveOrthogonally, unscaledCovariance } from "../regression/orthogonal-solve";
import { RegressionError } from "../regression/regression-error";
import { studentT } from "../statistics/distributions";

/** A fitted parameter with its standard error of the logarithm and its interval. */
export interface FittedParameter {
  readonly name: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A curve fitted by least squares. */
export interface CurveFit {
  readonly parameters: ReadonlyArray<FittedParameter>;
  readonly residualSd: number;
  readonly n: number;
  readonly iterations: number;
}

/**
 * Least squares of a law with positive parameters, on their logarithms (Levenberg-Marquardt,
 * central differences). Intervals are 95 % from the linearised covariance and Student's t. Readings
 * of one record follow each other closely, so that the true uncertainty is larger: the scatter
 * between specimens is what counts for a series.
 * @throws RangeError when there are not at least three readings more than parameters, or the fit
 *   does not settle
 */
export function fitPositive(
  names: ReadonlyArray<string>,
  start: ReadonlyArray<number>,
  law: (slip: number, parameters: ReadonlyArray<number>) => number,
  slips: Float64Array,
  stresses: Float64Array,
): CurveFit {
  const [n, k] = [slips.length, names.length];
  if (n < k + 3)
    throw new RangeError(
      `a fit of ${String(k)} parameters needs ${String(k + 3)} readings: got ${String(n)}`,
    );
  // 1 + ln(value/start): the search measures steps against the parameter's size, which must not be
  // near 0.
  const valueOf = (theta: number, j: number): number => (start[j] ?? NaN) * Math.exp(theta - 1);
  const valuesAt = (theta: Float64Array): Float64Array => {
    const parameters = Array.from(theta, valueOf);
    return slips.map((slip) => law(slip, parameters));
  };
  const model: ResidualModel = (theta) => ({
    fitted: valuesAt(theta),
    jacobian: names.map((_, j) => {
      const [up, down] = [theta.slice(), theta.slice()];
      up[j] = theta[j]! + 1e-6;
      down[j] = theta[j]! - 1e-6;
      const [above, below] = [valuesAt(up), valuesAt(down)];
      return above.map((value, i) => (value - below[i]!) / 2e-6);
    }),
  });
  try {
    const found = searchMinimum(model, stresses, new Float64Array(k).fill(1), 2000);
    const variance = found.sumOfSquares / (n - k);
    const covariance = unscaledCovariance(
      solveOrthogonally(found.jacobian, found.residuals, names).inverseR,
    );
    const t = studentT(n - k).quantile(0.975);
    return {
      parameters: names.map((name, j) => {
        const value = valueOf(found.parameters[j]!, j);
        const spread = Math.exp(t * Math.sqrt(variance * covariance[j]![j]!));
        return { name, value, low: value / spread, high: value * spread };
      }),
      residualSd: Math.sqrt(variance),
      n,
      iterations: found.steps,
    };
  } catch (error) {
    if (!(error instanceof RegressionError)) throw error;
    throw new RangeError(
      `the fit did not settle: ${error.message}; expected a curve of the law's shape`,
    );
  }
}
