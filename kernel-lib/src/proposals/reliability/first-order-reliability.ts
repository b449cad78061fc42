import { normal } from "../../statistics";
import type { LimitState } from "./limit-state";
import { normalSpaceVariable, type NormalSpaceVariable } from "./standard-normal-space";

export interface FirstOrderReliability {
  readonly status: "converged" | "not converged";
  /** β, the distance of the design point from the origin, negative when the means already fail. */
  readonly index: number;
  /** Φ(−β): exact only for a limit state that is straight in standard normal space. */
  readonly failureProbability: number;
  /** The most likely point of failure, in standard normal space and in the variables' own units. */
  readonly u: readonly number[];
  readonly x: readonly number[];
  /** α_i = −(∂g/∂u_i)/|∇g|: positive for a load, negative for a resistance; Σα² = 1. */
  readonly sensitivity: readonly { readonly name: string; readonly alpha: number; readonly share: number }[];
  readonly iterations: number;
  readonly reading: string;
}

const STANDARD = normal();

/**
 * First-order reliability index of Hasofer and Lind (1974) for any marginals (transformation of Rackwitz and Fiessler
 * 1978), with the step length controlled by a merit function (Zhang and Der Kiureghian 1995) so that curved limit states
 * converge too. Independent variables only.
 * @throws RangeError for unequal lists or a limit state that is not finite at the medians
 * @example firstOrderReliability({ names: ["R", "Q"], marginals: [normal(10, 1), normal(5, 1)], g: ([r = 0, q = 0]) => r - q }).index // 3.5355…
 */
export function firstOrderReliability(state: LimitState, options: { readonly tolerance?: number; readonly limit?: number; readonly start?: readonly number[] } = {}): FirstOrderReliability {
  const n = state.marginals.length;
  if (state.names.length !== n || n === 0) throw new RangeError(`firstOrderReliability: ${state.names.length} names for ${n} marginals, expected as many, at least one`);
  const { tolerance = 1e-7, limit = 100 } = options;
  const space = state.marginals.map(normalSpaceVariable);
  let u: number[] = options.start ? [...options.start] : new Array<number>(n).fill(0);
  let now = evaluate(state, space, u);
  if (!Number.isFinite(now.g)) throw new RangeError(`firstOrderReliability: the limit state is ${now.g} at the start, expected a finite number`);
  const scale = Math.abs(now.g) || 1;
  let iterations = 0;
  let converged = false;
  while (iterations < limit && !converged) {
    iterations += 1;
    const square = now.slope.reduce((sum, value) => sum + value * value, 0);
    if (!(square > 0)) break;
    const factor = (dot(now.slope, u) - now.g) / square;
    const direction = now.slope.map((value, i) => factor * value - (u[i] ?? 0));
    const length = Math.sqrt(dot(direction, direction));
    const weight = 2 * Math.max(Math.sqrt(dot(u, u) / square), length > 0 ? 1e-3 : 0) + 1e-3 / Math.sqrt(square);
    const merit = (point: readonly number[], g: number): number => 0.5 * dot(point, point) + weight * Math.abs(g);
    const before = merit(u, now.g);
    let part = 1;
    let next = u;
    let there = now;
    for (let halvings = 0; halvings < 12; halvings++) {
      next = u.map((value, i) => value + part * (direction[i] ?? 0));
      there = evaluate(state, space, next);
      // Near the design point rounding hides the descent: the full step is then taken as it is.
      if (length < 1e-6 || (Number.isFinite(there.g) && merit(next, there.g) < before)) break;
      part /= 2;
    }
    if (!Number.isFinite(there.g)) break;
    // The index errs by the square of the distance left, so 1e-7 of it is below rounding.
    converged = length <= tolerance * (1 + Math.sqrt(dot(next, next))) && Math.abs(there.g) <= 1e-10 * scale;
    [u, now] = [next, there];
  }
  return result(state, u, now, iterations, converged);
}

interface Point {
  readonly x: readonly number[];
  readonly g: number;
  /** ∂g/∂u. */
  readonly slope: readonly number[];
}

function evaluate(state: LimitState, space: readonly NormalSpaceVariable[], u: readonly number[]): Point {
  const x = space.map((variable, i) => variable.x(u[i] ?? 0));
  const given = state.gradient?.(x);
  const work = [...x];
  const slope = space.map((variable, i) => {
    const own = variable.slope(u[i] ?? 0, x[i] ?? 0);
    if (given) return (given[i] ?? NaN) * own;
    const at = (shift: number): number => {
      work[i] = (x[i] ?? 0) + shift;
      const value = state.g(work);
      work[i] = x[i] ?? 0;
      return value;
    };
    // A step in proportion to the scatter; fourth order, so a smooth limit state loses no more than rounding.
    const h = 2e-3 * own;
    return ((8 * (at(h) - at(-h)) - (at(2 * h) - at(-2 * h))) / (12 * h)) * own;
  });
  return { x, g: state.g(x), slope };
}

function result(state: LimitState, u: readonly number[], { x, g, slope }: Point, iterations: number, converged: boolean): FirstOrderReliability {
  const norm = Math.sqrt(dot(slope, slope));
  const alpha = slope.map((value) => (norm > 0 ? 0 - value / norm : 0));
  // The distance of the tangent plane, whose error is of second order in that of u.
  const index = norm > 0 ? (g - dot(slope, u)) / norm : NaN;
  const sensitivity = state.names.map((name, i) => ({ name, alpha: alpha[i] ?? 0, share: (alpha[i] ?? 0) ** 2 }));
  const failureProbability = STANDARD.cdf(-index);
  const lead = [...sensitivity].sort((a, b) => b.share - a.share)[0];
  return {
    status: converged ? "converged" : "not converged", index, failureProbability, u, x, sensitivity, iterations,
    reading: converged
      ? `Reliability index ${index.toFixed(3)} (failure probability ${failureProbability.toExponential(2)}, first order); ${lead?.name} governs with ${(100 * (lead?.share ?? 0)).toFixed(0)} % of the variance.`
      : `No design point was found in ${iterations} iterations; the index ${index.toFixed(3)} is not to be used.`,
  };
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
}
