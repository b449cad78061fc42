import { choleskyInPlace, choleskySolveInPlace } from "../linear-algebra";
import type { LocationScaleLaw } from "./location-scale-law";

/**
 * Rows of a right-censored location-scale model y = x b + sigma Z; logs are already taken where the
 * law is on logs.
 */
export interface CensoredRows {
  readonly y: Float64Array;
  /** 1 where y is only a lower bound. */
  readonly censored: Uint8Array;
  /** Columns of x, at least the intercept; independent of each other. */
  readonly columns: readonly Float64Array[];
}

/** Maximum of the likelihood in (b / sigma, 1 / sigma). */
export interface CensoredMaximum {
  readonly coefficients: Float64Array;
  readonly sigma: number;
  readonly logLikelihood: number;
  readonly iterations: number;
}

/** The likelihood has no maximum within reach of the search. */
export class NoMaximumError extends Error {
  override readonly name = "NoMaximumError";
}

/**
 * Maximises the likelihood sum over failures [ln tau + ln f(tau y - x g)] + sum over censored ln
 * S(tau y - x g) in g = b / sigma and tau = 1 / sigma by Newton's method with step halving. In
 * these parameters the log-likelihood is concave for every law with log-concave density (Olsen 1978
 * for the normal, Burridge 1981), so there is one maximum and every start leads to it.
 *
 * @param start coefficients b and sigma
 * @throws NoMaximumError after 200 steps, as when two failures can be met exactly
 */
export function maximiseCensored(
  rows: CensoredRows,
  law: LocationScaleLaw,
  start: { coefficients: ArrayLike<number>; sigma: number },
): CensoredMaximum {
  const p = rows.columns.length;
  const size = p + 1;
  const theta = new Float64Array(size);
  for (let j = 0; j < p; j += 1) theta[j] = start.coefficients[j]! / start.sigma;
  theta[p] = 1 / start.sigma;
  const gradient = new Float64Array(size);
  const information = new Float64Array(size * size);
  const trial = new Float64Array(size);
  let value = evaluate(rows, law, theta, gradient, information);
  for (let iteration = 1; iteration <= 200; iteration += 1) {
    const step = Float64Array.from(gradient);
    const ridge = Float64Array.from(information);
    let added = 0;
    while (!choleskyInPlace(ridge, size)) {
      added = added === 0 ? 1e-12 : added * 100;
      if (added > 1e6)
        throw new NoMaximumError(
          "The information matrix of the censored likelihood stays singular",
        );
      ridge.set(information);
      for (let j = 0; j < size; j += 1)
        ridge[j * size + j] = ridge[j * size + j]! * (1 + added) + added * 1e-30;
    }
    choleskySolveInPlace(ridge, size, step);
    // Newton decrement: twice the gain still to be had.
    let decrement = 0;
    for (let j = 0; j < size; j += 1) decrement += step[j]! * gradient[j]!;
    let length = 1;
    let next = -Infinity;
    for (let halving = 0; halving < 60; halving += 1) {
      for (let j = 0; j < size; j += 1) trial[j] = theta[j]! + length * step[j]!;
      next = trial[p]! > 0 ? evaluate(rows, law, trial, gradient, information) : -Infinity;
      if (next >= value - 1e-13 * Math.abs(value)) break;
      length /= 2;
    }
    if (!Number.isFinite(next))
      throw new NoMaximumError("The censored likelihood has no finite maximum");
    theta.set(trial);
    value = next;
    if (decrement < 1e-20 || (length === 1 && decrement < 1e-15 * Math.max(1, Math.abs(value)))) {
      return {
        coefficients: theta.slice(0, p).map((g) => g / theta[p]!),
        sigma: 1 / theta[p],
        logLikelihood: value,
        iterations: iteration,
      };
    }
    if (theta[p] > 1e12 / spread(rows.y)) break;
  }
  throw new NoMaximumError(
    "The censored likelihood has no finite maximum: the failures can be fitted without scatter",
  );
}

function spread(y: Float64Array): number {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < y.length; i += 1) {
    low = Math.min(low, y[i]!);
    high = Math.max(high, y[i]!);
  }
  return Math.max(high - low, 1e-12 * Math.max(Math.abs(low), Math.abs(high)), 1e-300);
}

/** Log-likelihood at theta = (g, tau); fills the gradient and the negative Hessian. */
function evaluate(
  rows: CensoredRows,
  law: LocationScaleLaw,
  theta: Float64Array,
  gradient: Float64Array,
  information: Float64Array,
): number {
  const { y, censored, columns } = rows;
  const p = columns.length;
  const size = p + 1;
  const tau = theta[p]!;
  const out = new Float64Array(3);
  gradient.fill(0);
  information.fill(0);
  let value = 0;
  let failures = 0;
  for (let i = 0; i < y.length; i += 1) {
    let z = tau * y[i]!;
    for (let j = 0; j < p; j += 1) z -= theta[j]! * columns[j]![i]!;
    if (censored[i] === 1) law.survival(z, out);
    else {
      law.density(z, out);
      failures += 1;
    }
    const first = out[1]!;
    const second = out[2]!;
    value += out[0]!;
    for (let j = 0; j < size; j += 1) {
      const a = j < p ? -columns[j]![i]! : y[i]!;
      gradient[j] = gradient[j]! + first * a;
      for (let k = 0; k <= j; k += 1) {
        const b = k < p ? -columns[k]![i]! : y[i]!;
        information[j * size + k] = information[j * size + k]! - second * a * b;
      }
    }
  }
  value += failures * Math.log(tau);
  gradient[p] = gradient[p]! + failures / tau;
  information[p * size + p] = information[p * size + p]! + failures / (tau * tau);
  for (let j = 0; j < size; j += 1)
    for (let k = j + 1; k < size; k += 1) information[j * size + k] = information[k * size + j]!;
  return value;
}
