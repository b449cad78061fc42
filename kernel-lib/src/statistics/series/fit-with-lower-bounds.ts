import { NoMaximumError } from "../censoring/censored-likelihood";
import { choleskyInPlace, choleskySolveInPlace } from "../linear-algebra/cholesky";
import type { FailureSums } from "./failure-sums";
import { addLowerBounds, type Correlation, type Slopes } from "./lower-bound-terms";
import type { TestsInSeries } from "./tests-in-series";

/** The fit of a random-effects model whose intraclass correlation is given. */
export interface FitAtCorrelation {
  readonly correlation: number;
  /** Fixed effects beta, length p. */
  readonly effects: Float64Array;
  /** Maximum-likelihood SD of a single test, within and between series together. */
  readonly sd: number;
  /** Observed information of (beta, ln sd), (p + 1) x (p + 1). */
  readonly information: Float64Array;
  /**
   * ln of the integral of L over beta and ln sd but for a constant (Laplace; exact without lower
   * bounds).
   */
  readonly logIntegrated: number;
}

/**
 * Maximum of the likelihood of tests in series with lower bounds at a given correlation, by
 * Newton's method.
 *
 * The effect u of a series is integrated out about its law given the failures of the series
 * (`lower-bound-terms.ts`). The likelihood is log-concave in (beta/sigma, 1/sigma, u) as a product
 * of normal densities and survival functions, so integrating u out leaves it log-concave (Prekopa
 * 1973): there is one maximum.
 * @throws NoMaximumError where the information is singular, or after 100 steps
 */
export function fitWithLowerBounds(
  tests: TestsInSeries,
  sums: FailureSums,
  correlation: Correlation,
  start: Pick<FitAtCorrelation, "effects" | "sd">,
): FitAtCorrelation {
  const p = sums.effects;
  let theta = Float64Array.from(
    { length: p + 1 },
    (_, j) => (j < p ? start.effects[j]! : 1) / start.sd,
  );
  let at = slopesAt(tests, sums, correlation, theta);
  for (let step = 0; step < 100; step += 1) {
    const direction = Float64Array.from(at.gradient);
    const factor = Float64Array.from(at.hessian);
    if (!choleskyInPlace(factor, p + 1))
      throw new NoMaximumError("The information of the likelihood of tests in series is singular");
    choleskySolveInPlace(factor, p + 1, direction);
    const decrement = direction.reduce((sum, d, j) => sum + d * at.gradient[j]!, 0);
    // Twice what ln L can still gain.
    if (decrement < 1e-8) break;
    let [length, next, moved] = [1, at, theta];
    for (; length > 1e-12; length /= 2) {
      if (!(theta[p]! + length * direction[p]! > 0)) continue;
      moved = theta.map((value, j) => value + length * direction[j]!);
      next = slopesAt(tests, sums, correlation, moved);
      if (next.value >= at.value - 1e-13 * Math.abs(at.value)) break;
    }
    if (!(length > 1e-12)) break;
    [theta, at] = [moved, next];
    if (step === 99)
      throw new NoMaximumError(
        "The likelihood of tests in series has no maximum within reach of the search",
      );
  }
  return informed(at, correlation.value, theta);
}

/**
 * From theta to (beta, ln sigma): d(beta/sigma) = d beta/sigma - gamma d(ln sigma), d(1/sigma) =
 * -tau d(ln sigma).
 */
function informed(
  { value, hessian }: Slopes,
  correlation: number,
  theta: Float64Array,
): FitAtCorrelation {
  const q = theta.length;
  const p = q - 1;
  const tau = theta[p]!;
  const information = new Float64Array(q * q);
  let scale = 0;
  for (let j = 0; j < q; j += 1) {
    let row = 0;
    for (let k = 0; k < q; k += 1) row += hessian[j * q + k]! * theta[k]!;
    scale += theta[j]! * row;
    if (j === p) continue;
    information[j * q + p] = information[p * q + j] = -tau * row;
    for (let k = 0; k < p; k += 1) information[j * q + k] = tau * tau * hessian[j * q + k]!;
  }
  information[p * q + p] = scale;
  const factor = Float64Array.from(information);
  if (!choleskyInPlace(factor, q))
    throw new NoMaximumError("The information of the likelihood of tests in series is singular");
  let logDeterminant = 0;
  for (let j = 0; j < q; j += 1) logDeterminant += 2 * Math.log(factor[j * q + j]!);
  const effects = Float64Array.from({ length: p }, (_, j) => theta[j]! / tau);
  return {
    correlation,
    effects,
    sd: 1 / tau,
    information,
    logIntegrated: value - 0.5 * logDeterminant,
  };
}

function slopesAt(
  tests: TestsInSeries,
  sums: FailureSums,
  { value: rho, rest }: Correlation,
  theta: Float64Array,
): Slopes {
  const q = theta.length;
  const p = q - 1;
  const tau = theta[p]!;
  const out: Slopes = {
    value: sums.failures * Math.log(tau),
    gradient: new Float64Array(q),
    hessian: new Float64Array(q * q),
  };
  out.gradient[p] = sums.failures / tau;
  out.hessian[p * q + p] = sums.failures / (tau * tau);
  // Within the series: -(tau y - x'gamma)^2/(2 (1 - rho)), from sums about the means of the series.
  for (let j = 0; j < q; j += 1) {
    let row = 0;
    for (let k = 0; k < q; k += 1) {
      const square = insideOf(sums, j, k) / rest;
      row += square * theta[k]!;
      out.hessian[j * q + k]! += square;
    }
    out.gradient[j]! -= row;
    out.value -= 0.5 * theta[j]! * row;
  }
  const d = new Float64Array(q);
  for (const { n, x, y } of sums.series) {
    const inflation = 1 + (n - 1) * rho;
    const weight = n / inflation;
    let error = 0;
    for (let j = 0; j < q; j += 1) {
      d[j] = j < p ? -x[j]! : y;
      error += d[j]! * theta[j]!;
    }
    out.value -= 0.5 * ((n - 1) * Math.log(rest) + Math.log(inflation) + weight * error * error);
    for (let j = 0; j < q; j += 1) {
      out.gradient[j]! -= weight * error * d[j]!;
      for (let k = 0; k < q; k += 1) out.hessian[j * q + k]! += weight * d[j]! * d[k]!;
    }
  }
  addLowerBounds(out, tests, { value: rho, rest }, theta);
  return out;
}

/** Sum about the means of the series of the products of (-x, y). */
function insideOf(sums: FailureSums, j: number, k: number): number {
  const p = sums.effects;
  if (j < p && k < p) return sums.insideX[j * p + k]!;
  if (j === p && k === p) return sums.insideY;
  return -sums.insideXY[j === p ? k : j]!;
}
