import { normalHazardBelow } from "../special/normal-integral";
import { normalNodes } from "./normal-nodes";
import type { SeriesOfTests, TestsInSeries } from "./tests-in-series";

/** Intraclass correlation, with 1 - correlation to full digits. */
export interface Correlation {
  readonly value: number;
  readonly rest: number;
}

/**
 * ln L at theta = (beta/sigma, 1/sigma), its gradient (q = p + 1) and the negative Hessian (q x q).
 */
export interface Slopes {
  value: number;
  readonly gradient: Float64Array;
  readonly hessian: Float64Array;
}

/** Width of the step that a limit makes, in SD, where a series holds limits only. */
const FINEST_STEP = 0.06;
/**
 * Below this, ln of the normal survival function is less than 2e-8: the test says nothing that
 * moves a bound.
 */
const CERTAIN = -5.5;
const LOG_SQRT_TWO_PI = 0.9189385332046727418;

/**
 * Adds, for each series, the ln of the probability that its lower bounds lie where they do, with
 * its slopes: ln of the sum over nodes v of w(v) prod S(z), z = (tau (limit - s ybar) - (x - s
 * xbar)'gamma - spread v)/sqrt(1 - rho).
 *
 * Given the n failures of the series (means xbar, ybar), sqrt(rho) u is normal about s (tau ybar -
 * xbar'gamma) with this spread; s = n rho/(1 + (n - 1) rho).
 */
export function addLowerBounds(
  out: Slopes,
  tests: TestsInSeries,
  correlation: Correlation,
  theta: Float64Array,
): void {
  for (const parts of tests.series) {
    if (parts.some(({ limits }) => limits.length > 0))
      addSeries(out, parts, tests.points, correlation, theta);
  }
}

/** The lower bounds of one series at one point of the design. */
interface Limits {
  /** z = (tau (limit - centre) + along'gamma - spread v)/own */
  readonly along: Float64Array;
  readonly limits: readonly number[];
  readonly level: number;
}

function addSeries(
  out: Slopes,
  parts: SeriesOfTests,
  points: readonly (readonly number[])[],
  { value: rho, rest }: Correlation,
  theta: Float64Array,
): void {
  const p = theta.length - 1;
  const tau = theta[p]!;
  const n = parts.reduce((sum, part) => sum + part.failures, 0);
  const inflation = 1 + (n - 1) * rho;
  const own = Math.sqrt(rest);
  // A series of limits alone becomes a step as rho nears 1; no finer one is asked for, so that sums
  // stay smooth.
  const width = n === 0 ? Math.max(own, FINEST_STEP) : own;
  const share = (n * rho) / inflation;
  const spread = Math.sqrt((rho * rest) / inflation);
  const meanX = new Float64Array(p);
  let meanY = 0;
  for (const { point, failures: m, mean } of parts) {
    if (m === 0) continue;
    meanY += (m / n) * mean;
    for (let j = 0; j < p; j += 1) meanX[j]! += (m / n) * points[point]![j]!;
  }
  const centre = share * meanY;
  const all = parts
    .filter(({ limits }) => limits.length > 0)
    .map(({ point, limits }): Limits => {
      const along = Float64Array.from(points[point]!, (x, j) => -(x - share * meanX[j]!) / width);
      return {
        along,
        limits: limits.map((limit) => (limit - centre) / width),
        level: along.reduce((sum, a, j) => sum + a * theta[j]!, 0),
      };
    });
  const { reduced, value } = overNodes(all, tau, spread / width);
  out.value += value;
  expand(out, all, reduced, p);
}

/** Slopes in the few parameters that a series knows: the level of each of its points, and tau. */
interface Reduced {
  readonly gradient: Float64Array;
  /** Second derivatives, not their negatives. */
  readonly curvature: Float64Array;
}

function overNodes(
  all: readonly Limits[],
  tau: number,
  spread: number,
): { readonly reduced: Reduced; readonly value: number } {
  return all.length === 1 ? atOnePoint(all[0]!, tau, spread) : atSeveralPoints(all, tau, spread);
}

/**
 * The usual case, one point of the design in a series: the same sums as {@link atSeveralPoints} in
 * plain numbers.
 */
function atOnePoint(
  { limits, level }: Limits,
  tau: number,
  spread: number,
): { readonly reduced: Reduced; readonly value: number } {
  const { nodes, logWeights } = normalNodes(1 / spread);
  let [top, sum, p, q, pp, pq, qq] = [-Infinity, 0, 0, 0, 0, 0, 0];
  for (let v = 0; v < nodes.length; v += 1) {
    const shift = level - spread * nodes[v]!;
    let [value, first, firstTau, second, secondTau, secondTauTau] = [logWeights[v]!, 0, 0, 0, 0, 0];
    for (let i = 0; i < limits.length; i += 1) {
      const limit = limits[i]!;
      const z = tau * limit + shift;
      if (z < CERTAIN) continue;
      const hazard = normalHazardBelow(-z);
      const curve = Math.min(1, Math.max(0, hazard * (hazard - z)));
      // ln S = ln phi - ln hazard: one special function for both.
      value -= 0.5 * z * z + LOG_SQRT_TWO_PI + Math.log(hazard);
      first -= hazard;
      firstTau -= hazard * limit;
      second -= curve;
      secondTau -= curve * limit;
      secondTauTau -= curve * limit * limit;
    }
    if (value > top) {
      const down = Math.exp(top - value);
      [sum, p, q, pp, pq, qq, top] = [
        sum * down,
        p * down,
        q * down,
        pp * down,
        pq * down,
        qq * down,
        value,
      ];
    }
    const w = Math.exp(value - top);
    sum += w;
    p += w * first;
    q += w * firstTau;
    pp += w * (first * first + second);
    pq += w * (first * firstTau + secondTau);
    qq += w * (firstTau * firstTau + secondTauTau);
  }
  const [g, h] = [p / sum, q / sum];
  const curvature = Float64Array.of(
    pp / sum - g * g,
    pq / sum - g * h,
    pq / sum - g * h,
    qq / sum - h * h,
  );
  return { reduced: { gradient: Float64Array.of(g, h), curvature }, value: top + Math.log(sum) };
}

function atSeveralPoints(
  all: readonly Limits[],
  tau: number,
  spread: number,
): { readonly reduced: Reduced; readonly value: number } {
  const m = all.length + 1;
  const { nodes, logWeights } = normalNodes(1 / spread);
  const [gradient, curvature] = [new Float64Array(m), new Float64Array(m * m)];
  const [first, second] = [new Float64Array(m), new Float64Array(m * m)];
  let [top, sum] = [-Infinity, 0];
  for (let v = 0; v < nodes.length; v += 1) {
    first.fill(0);
    second.fill(0);
    let value = logWeights[v]!;
    for (let k = 0; k < all.length; k += 1) {
      const { limits, level } = all[k]!;
      for (const limit of limits) {
        const z = tau * limit + level - spread * nodes[v]!;
        if (z < CERTAIN) continue;
        const hazard = normalHazardBelow(-z);
        const curve = Math.min(1, Math.max(0, hazard * (hazard - z)));
        // ln S = ln phi - ln hazard: one special function for both.
        value -= 0.5 * z * z + LOG_SQRT_TWO_PI + Math.log(hazard);
        first[k]! -= hazard;
        first[m - 1]! -= hazard * limit;
        second[k * m + k]! -= curve;
        second[k * m + m - 1]! -= curve * limit;
        second[(m - 1) * m + m - 1]! -= curve * limit * limit;
      }
    }
    // Running sums relative to the largest term so far.
    if (value > top) {
      const down = Math.exp(top - value);
      sum *= down;
      for (let a = 0; a < m; a += 1) gradient[a]! *= down;
      for (let a = 0; a < m * m; a += 1) curvature[a]! *= down;
      top = value;
    }
    const w = Math.exp(value - top);
    sum += w;
    for (let a = 0; a < m; a += 1) {
      gradient[a]! += w * first[a]!;
      for (let b = a; b < m; b += 1)
        curvature[a * m + b]! += w * (first[a]! * first[b]! + second[a * m + b]!);
    }
  }
  for (let a = 0; a < m; a += 1) gradient[a]! /= sum;
  for (let a = 0; a < m; a += 1) {
    for (let b = a; b < m; b += 1)
      curvature[b * m + a] = curvature[a * m + b] =
        curvature[a * m + b]! / sum - gradient[a]! * gradient[b]!;
  }
  return { reduced: { gradient, curvature }, value: top + Math.log(sum) };
}

/** From the levels of the points to gamma: level = along'gamma. */
function expand(
  out: Slopes,
  all: readonly Limits[],
  { gradient, curvature }: Reduced,
  p: number,
): void {
  const [q, m] = [p + 1, all.length + 1];
  for (let a = 0; a < m; a += 1) {
    for (let j = 0; j < q; j += 1) {
      const ofJ = slope(all, a, j, p);
      if (ofJ === 0) continue;
      out.gradient[j]! += gradient[a]! * ofJ;
      for (let b = 0; b < m; b += 1) {
        for (let k = 0; k < q; k += 1)
          out.hessian[j * q + k]! -= ofJ * curvature[a * m + b]! * slope(all, b, k, p);
      }
    }
  }
}

function slope(all: readonly Limits[], a: number, j: number, p: number): number {
  return a === all.length ? (j === p ? 1 : 0) : j === p ? 0 : all[a]!.along[j]!;
}
