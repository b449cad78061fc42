import type { LimitState } from "./limit-state";
import { normalSpaceVariable, type NormalSpaceVariable } from "./standard-normal-space";

/**
 * The point of g = 0 nearest to the origin of standard normal space, or where the search stopped.
 */
export interface DesignPoint {
  readonly u: readonly number[];
  readonly x: readonly number[];
  readonly g: number;
  /** ∂g/∂u. */
  readonly slope: readonly number[];
  readonly iterations: number;
  readonly converged: boolean;
}

/**
 * Minimises |u|²/2 on g = 0 by sequential quadratic programming: each step solves the quadratic
 * model with the inverse Hessian W of the Lagrangian, kept by the BFGS formula from W = I, whose
 * first step is that of Hasofer and Lind. The step is halved until the merit |u|²/2 + c |g| falls;
 * the gradient is taken only at points that are kept.
 *
 * Nothing is allocated in the loop: thousands of these are solved for one figure.
 * @throws RangeError for a limit state that is not finite at the start
 */
export function designPointOf(
  state: LimitState,
  options: {
    readonly tolerance?: number;
    readonly limit?: number;
    readonly start?: readonly number[];
  },
): DesignPoint {
  const n = state.marginals.length;
  const { tolerance = 1e-7, limit = 100 } = options;
  const space = state.marginals.map(normalSpaceVariable);
  const [u, x, slope, trial, trialX] = [zeros(n), zeros(n), zeros(n), zeros(n), zeros(n)];
  const [step, before, weighted, change, work] = [zeros(n), zeros(n), zeros(n), zeros(n), zeros(n)];
  if (options.start) for (let i = 0; i < n; i++) u[i] = options.start[i] ?? 0;
  toX(space, u, x);
  let g = state.g(x);
  if (!Number.isFinite(g))
    throw new RangeError(
      `firstOrderReliability: the limit state is ${g} at the start, expected a finite number`,
    );
  slopeAt(state, space, u, x, work, slope);
  const W = zeros(n * n);
  unit(W, n);
  let iterations = 0;
  let converged = false;
  for (;;) {
    const square = dot(slope, slope);
    if (!(square > 0)) break;
    const along = dot(slope, u) / square;
    let off = 0;
    for (let i = 0; i < n; i++) off += ((u[i] as number) - along * (slope[i] as number)) ** 2;
    const distance = Math.sqrt(dot(u, u));
    // The index errs by the square of the distance left, so 1e-7 of it is below rounding.
    converged =
      Math.sqrt(off) <= tolerance * (1 + distance) &&
      Math.abs(g) <= 1e-10 * Math.sqrt(square) * (1 + distance);
    if (converged || iterations >= limit) break;
    iterations += 1;
    // d = −W (u + λ ∇g), λ = (g − ∇g·W u) / (∇g·W ∇g): the quadratic model's minimum on the tangent
    // plane.
    product(W, slope, weighted);
    const multiplier = (g - dot(weighted, u)) / dot(slope, weighted);
    for (let i = 0; i < n; i++) work[i] = (u[i] as number) + multiplier * (slope[i] as number);
    product(W, work, step);
    for (let i = 0; i < n; i++) step[i] = -(step[i] as number);
    const length = Math.sqrt(dot(step, step));
    const weight =
      2 * Math.max(distance / Math.sqrt(square), Math.abs(multiplier)) + 1e-3 / Math.sqrt(square);
    const merit = 0.5 * distance * distance + weight * Math.abs(g);
    let part = 1;
    let there = NaN;
    for (let halvings = 0; halvings < 12; halvings++) {
      for (let i = 0; i < n; i++) trial[i] = (u[i] as number) + part * (step[i] as number);
      toX(space, trial, trialX);
      there = state.g(trialX);
      // Near the design point rounding hides the descent: the full step is then taken as it is.
      if (
        length < 1e-6 ||
        (Number.isFinite(there) && 0.5 * dot(trial, trial) + weight * Math.abs(there) < merit)
      )
        break;
      part /= 2;
    }
    if (!Number.isFinite(there)) break;
    for (let i = 0; i < n; i++) {
      before[i] = slope[i] as number;
      u[i] = trial[i] as number;
      x[i] = trialX[i] as number;
      step[i] = part * (step[i] as number);
    }
    g = there;
    slopeAt(state, space, u, x, work, slope);
    for (let i = 0; i < n; i++)
      change[i] = (step[i] as number) + multiplier * ((slope[i] as number) - (before[i] as number));
    updateInverse(W, step, change, weighted);
  }
  return { u, x, g, slope, iterations, converged };
}

/**
 * BFGS formula for the inverse; left as it is where the curvature along the step is not clearly
 * positive.
 */
function updateInverse(
  W: number[],
  step: readonly number[],
  change: readonly number[],
  weighted: number[],
): void {
  const n = step.length;
  const curvature = dot(step, change);
  if (!(curvature > 0.05 * dot(step, step))) return;
  product(W, change, weighted);
  const scale = (1 + dot(change, weighted) / curvature) / curvature;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++)
      W[i * n + j] =
        (W[i * n + j] as number) +
        scale * (step[i] as number) * (step[j] as number) -
        ((step[i] as number) * (weighted[j] as number) +
          (weighted[i] as number) * (step[j] as number)) /
          curvature;
  }
}

function slopeAt(
  state: LimitState,
  space: readonly NormalSpaceVariable[],
  u: readonly number[],
  x: readonly number[],
  work: number[],
  slope: number[],
): void {
  const n = u.length;
  const given = state.gradient?.(x);
  if (!given) for (let i = 0; i < n; i++) work[i] = x[i] as number;
  for (let i = 0; i < n; i++) {
    const own = (space[i] as NormalSpaceVariable).slope(u[i] as number, x[i] as number);
    slope[i] = (given ? (given[i] ?? NaN) : difference(state.g, work, i, 2e-3 * own)) * own;
  }
}

/**
 * ∂g/∂x_i with a step in proportion to the scatter; fourth order, so a smooth limit state loses no
 * more than rounding.
 */
function difference(g: LimitState["g"], work: number[], i: number, h: number): number {
  const at = work[i] as number;
  work[i] = at + h;
  const near = g(work);
  work[i] = at - h;
  const nearBelow = g(work);
  work[i] = at + 2 * h;
  const far = g(work);
  work[i] = at - 2 * h;
  const farBelow = g(work);
  work[i] = at;
  return (8 * (near - nearBelow) - (far - farBelow)) / (12 * h);
}

function toX(space: readonly NormalSpaceVariable[], u: readonly number[], x: number[]): void {
  for (let i = 0; i < u.length; i++) x[i] = (space[i] as NormalSpaceVariable).x(u[i] as number);
}

function product(W: readonly number[], v: readonly number[], out: number[]): void {
  const n = v.length;
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let j = 0; j < n; j++) sum += (W[i * n + j] as number) * (v[j] as number);
    out[i] = sum;
  }
}

function unit(W: number[], n: number): void {
  for (let i = 0; i < n * n; i++) W[i] = i % (n + 1) === 0 ? 1 : 0;
}

/** Numbers that the engine keeps unboxed from the start. */
function zeros(n: number): number[] {
  const made: number[] = [];
  for (let i = 0; i < n; i++) made.push(0.5);
  return made.fill(0);
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}
