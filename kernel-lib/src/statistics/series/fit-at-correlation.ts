import { NoMaximumError } from "../censoring/censored-likelihood";
import { normalHazardBelow } from "../special/normal-integral";
import { normalNodes, type NormalNodes } from "./normal-nodes";
import type { SeriesOfTests } from "./series-of-tests";

/** The fit of a one-way random-effects model whose intraclass correlation is given. */
export interface FitAtCorrelation {
  readonly correlation: number;
  readonly mean: number;
  /** Maximum-likelihood SD of a single test, within and between series together. */
  readonly sd: number;
  /** Observed information of (mean, ln sd): mean-mean, mean-ln sd, ln sd-ln sd. */
  readonly information: readonly [number, number, number];
  /** ln ∫∫ L d(mean) d(ln sd) but for a constant, by Laplace's method: exact without lower bounds. */
  readonly logIntegrated: number;
}

/** Width of the step that a limit makes, in SD, where a series holds limits only. */
const FINEST_STEP = 0.06;
/** Below this, ln of the normal survival function is 0 to all digits. */
const CERTAIN = -8.3;
const LOG_SQRT_TWO_PI = 0.9189385332046727418;

/**
 * Maximum of the likelihood of tests in series at a given intraclass correlation ρ: y = μ + σ (√ρ u + √(1 − ρ) e), u one
 * a series and e one a test, both standard normal; a lower bound counts as the probability of lying above it.
 *
 * In closed form without lower bounds (weights n/(1 + (n − 1) ρ) of the series means). With them u is integrated out
 * about its law given the failures of the series ({@link normalNodes}). The likelihood is log-concave in (μ/σ, 1/σ, u) as a
 * product of normal densities and survival functions, so integrating u out leaves it log-concave (Prékopa 1973): one maximum.
 *
 * @param start mean and SD to start from where there are lower bounds
 * @throws NoMaximumError where the failures do not scatter, or after 100 steps
 */
export function fitAtCorrelation(series: readonly SeriesOfTests[], correlation: number, start: { readonly mean: number; readonly sd: number }): FitAtCorrelation {
  return series.every(({ limits }) => limits.length === 0) ? closedForm(series, correlation) : byNewton(series, correlation, start);
}

function closedForm(series: readonly SeriesOfTests[], rho: number): FitAtCorrelation {
  let [count, weight, weighted, squares, logDeterminant] = [0, 0, 0, 0, 0];
  for (const { failures: n, mean, squares: within } of series) {
    const inflation = 1 + (n - 1) * rho;
    count += n;
    weight += n / inflation;
    weighted += (n / inflation) * mean;
    squares += within / (1 - rho);
    logDeterminant += (n - 1) * Math.log(1 - rho) + Math.log(inflation);
  }
  const centre = weighted / weight;
  for (const { failures: n, mean } of series) squares += (n / (1 + (n - 1) * rho)) * (mean - centre) ** 2;
  if (!(squares > 0)) throw new NoMaximumError("The failures do not scatter");
  const variance = squares / count;
  return { correlation: rho, mean: centre, sd: Math.sqrt(variance), information: [weight / variance, 0, 2 * count], logIntegrated: -0.5 * (logDeterminant + (count - 1) * Math.log(squares) + Math.log(weight)) };
}

/** ln L at (g, τ) = (μ/σ, 1/σ), its gradient and the negative Hessian (gg, gτ, ττ). */
interface Slopes {
  value: number;
  readonly gradient: [number, number];
  readonly hessian: [number, number, number];
}

function byNewton(series: readonly SeriesOfTests[], rho: number, start: { readonly mean: number; readonly sd: number }): FitAtCorrelation {
  let [g, tau] = [start.mean / start.sd, 1 / start.sd];
  let at = slopesAt(series, rho, g, tau);
  for (let step = 0; step < 100; step += 1) {
    const [a, b, c] = at.hessian;
    const determinant = a * c - b * b;
    if (!(determinant > 0)) throw new NoMaximumError("The information of the likelihood of tests in series is singular");
    const [p, q] = at.gradient;
    const [dg, dtau] = [(c * p - b * q) / determinant, (a * q - b * p) / determinant];
    const decrement = dg * p + dtau * q;
    if (decrement < 1e-10) return informed(at, rho, g, tau);
    let [length, next] = [1, at];
    for (; length > 1e-12; length /= 2) {
      if (!(tau + length * dtau > 0)) continue;
      next = slopesAt(series, rho, g + length * dg, tau + length * dtau);
      if (next.value >= at.value - 1e-13 * Math.abs(at.value)) break;
    }
    if (!(length > 1e-12)) return informed(at, rho, g, tau);
    [g, tau, at] = [g + length * dg, tau + length * dtau, next];
  }
  throw new NoMaximumError("The likelihood of tests in series has no maximum that the search could reach");
}

/** From (g, τ) to (μ, ln σ): dg = dμ/σ − g d(ln σ), dτ = −τ d(ln σ); at the maximum the gradient adds nothing. */
function informed(at: Slopes, rho: number, g: number, tau: number): FitAtCorrelation {
  const [a, b, c] = at.hessian;
  const information = [a * tau * tau, -tau * (a * g + b * tau), a * g * g + 2 * b * g * tau + c * tau * tau] as const;
  return { correlation: rho, mean: g / tau, sd: 1 / tau, information, logIntegrated: at.value - 0.5 * Math.log(information[0] * information[2] - information[1] ** 2) };
}

function slopesAt(series: readonly SeriesOfTests[], rho: number, g: number, tau: number): Slopes {
  const out: Slopes = { value: 0, gradient: [0, 0], hessian: [0, 0, 0] };
  const own = Math.sqrt(1 - rho);
  for (const { failures: n, mean, squares, limits } of series) {
    const inflation = 1 + (n - 1) * rho;
    if (n > 0) {
      const z = tau * mean - g;
      out.value += n * Math.log(tau) - 0.5 * ((n - 1) * Math.log(1 - rho) + Math.log(inflation) + (squares * tau * tau) / (1 - rho) + (n * z * z) / inflation);
      out.gradient[0] += (n * z) / inflation;
      out.gradient[1] += n / tau - (squares * tau) / (1 - rho) - (n * z * mean) / inflation;
      out.hessian[0] += n / inflation;
      out.hessian[1] -= (n * mean) / inflation;
      out.hessian[2] += n / (tau * tau) + squares / (1 - rho) + (n * mean * mean) / inflation;
    }
    if (limits.length === 0) continue;
    // A series of limits alone becomes a step as ρ nears 1; no finer one is asked for, so that sums over nodes stay smooth.
    const width = n === 0 ? Math.max(own, FINEST_STEP) : own;
    // Given the failures, √ρ u is normal about share (τ mean − g) with this spread.
    const share = (n * rho) / inflation;
    const spread = Math.sqrt((rho * (1 - rho)) / inflation);
    addLimits(out, limits, normalNodes(width / spread), { g, tau, own: width, share, centre: share * mean, spread });
  }
  return out;
}

interface Open {
  readonly g: number;
  readonly tau: number;
  readonly own: number;
  readonly share: number;
  readonly centre: number;
  readonly spread: number;
}

/** Adds ln Σ w Π S(z), z = (τ (limit − share mean) − g (1 − share) − spread x)/√(1 − ρ), with its slopes. */
function addLimits(out: Slopes, limits: readonly number[], { nodes, logWeights }: NormalNodes, { g, tau, own, share, centre, spread }: Open): void {
  const slopeG = -(1 - share) / own;
  let [top, sum, p, q, pp, pq, qq] = [-Infinity, 0, 0, 0, 0, 0, 0];
  for (let k = 0; k < nodes.length; k += 1) {
    let [value, first, firstTau, second, secondTau, secondTauTau] = [logWeights[k] ?? NaN, 0, 0, 0, 0, 0];
    for (const limit of limits) {
      const slopeTau = (limit - centre) / own;
      const z = tau * slopeTau + g * slopeG - (spread * (nodes[k] ?? NaN)) / own;
      // So far below the tests that the bound says nothing.
      if (z < CERTAIN) continue;
      const hazard = normalHazardBelow(-z);
      const curve = Math.min(1, Math.max(0, hazard * (hazard - z)));
      // ln S = ln φ − ln hazard: one special function for both.
      value -= 0.5 * z * z + LOG_SQRT_TWO_PI + Math.log(hazard);
      first -= hazard;
      firstTau -= hazard * slopeTau;
      second -= curve;
      secondTau -= curve * slopeTau;
      secondTauTau -= curve * slopeTau * slopeTau;
    }
    // Running sums relative to the largest term so far.
    if (value > top) {
      const down = Math.exp(top - value);
      [sum, p, q, pp, pq, qq, top] = [sum * down, p * down, q * down, pp * down, pq * down, qq * down, value];
    }
    const w = Math.exp(value - top);
    const a = first * slopeG;
    sum += w;
    p += w * a;
    q += w * firstTau;
    pp += w * (a * a + second * slopeG * slopeG);
    pq += w * (a * firstTau + secondTau * slopeG);
    qq += w * (firstTau * firstTau + secondTauTau);
  }
  out.value += top + Math.log(sum);
  out.gradient[0] += p / sum;
  out.gradient[1] += q / sum;
  out.hessian[0] -= pp / sum - (p / sum) ** 2;
  out.hessian[1] -= pq / sum - (p * q) / (sum * sum);
  out.hessian[2] -= qq / sum - (q / sum) ** 2;
}
