import { increasingRoot } from "../special/monotone-root";
import { normalDensity, normalIntegral } from "../special/normal-integral";
import { gaussLegendre } from "../special/quadrature";
import { logScaledChiDensity } from "../special/scaled-chi";
import type { FitAtCorrelation } from "./fit-at-correlation";

/** A fit with what the tests make of its correlation; weights sum to 1. */
export interface WeightedFit {
  readonly fit: FitAtCorrelation;
  readonly weight: number;
}

const NODES = 40;
/** SD from the mean within which the bound is looked for; K of 2 tests at 99.9 % confidence and 0.1 % is 2500. */
const FARTHEST = 1e5;

/** Nodes of S = √(χ²_ν/ν), with weights that hold its density and sum to 1. */
function chiNodes(degreesOfFreedom: number): { readonly s: Float64Array; readonly weight: Float64Array } {
  const { nodes, weights } = gaussLegendre(NODES);
  const density = logScaledChiDensity(degreesOfFreedom);
  const spread = 1 / Math.sqrt(2 * degreesOfFreedom);
  const [from, to] = [Math.max(0, 1 - 6.5 * spread), 1 + 6.5 * spread + 4 / (degreesOfFreedom + 1)];
  const s = nodes.map((node) => from + ((to - from) * (1 + node)) / 2);
  const raw = weights.map((one, i) => one * Math.exp(density(s[i] ?? NaN)));
  const total = raw.reduce((sum, one) => sum + one, 0);
  return { s, weight: raw.map((one) => one / total) };
}

/**
 * The sample of independent tests that a fit is worth: n' tests about `centre`, ν' degrees of freedom of `sd`. The
 * centre μ + a σ is the point whose error has nothing to do with that of ln σ; without lower bounds a = 0, n' = Σ n/(1 + (n − 1) ρ)
 * and ν' = n − 1, so that a known ρ has the exact factor.
 */
export function worthOf({ mean, sd, information: [mm, ms, ss] }: FitAtCorrelation): { readonly centre: number; readonly shift: number; readonly sd: number; readonly count: number; readonly degreesOfFreedom: number } {
  const shift = ms / mm / sd;
  const tests = (ss - (ms * ms) / mm) / 2;
  const degreesOfFreedom = Math.max(1, tests - 1);
  return { centre: mean + shift * sd, shift, sd: sd * Math.sqrt(tests / degreesOfFreedom), count: sd * sd * mm, degreesOfFreedom };
}

/**
 * L with P(μ − z σ ≤ L) = 1 − confidence, where for each correlation μ − z σ has the law behind the exact one-sided factor
 * (normal mean, χ of the SD), and the correlations are mixed by their weights.
 */
export function boundOfMixture(fits: readonly WeightedFit[], z: number, confidence: number): number {
  const parts = fits.filter(({ weight }) => weight > 1e-9).map(({ fit, weight }) => {
    const worth = worthOf(fit);
    return { ...worth, ...chiNodes(worth.degreesOfFreedom), share: weight, root: Math.sqrt(worth.count), below: z + worth.shift };
  });
  const whole = parts.reduce((sum, { share }) => sum + share, 0);
  const at = (bound: number): { value: number; slope: number } => {
    let [value, slope] = [-(1 - confidence) * whole, 0];
    for (const { centre, sd, root, below, s, weight, share } of parts) {
      const step = (root * (bound - centre)) / sd;
      for (let i = 0; i < s.length; i += 1) {
        const x = step * (s[i] ?? NaN) + root * below;
        value += share * (weight[i] ?? NaN) * normalIntegral(x);
        slope += share * (weight[i] ?? NaN) * normalDensity(x) * ((root * (s[i] ?? NaN)) / sd);
      }
    }
    // Far from the root the slope is lost to rounding: then the search halves its bracket.
    return { value, slope: Math.max(slope, 1e-300) };
  };
  const typical = parts.reduce((best, one) => (one.share > best.share ? one : best));
  const width = FARTHEST * Math.max(...parts.map(({ sd }) => sd));
  const start = typical.centre - (typical.below + 1.3 / typical.root + (1.3 * z) / Math.sqrt(2 * typical.degreesOfFreedom)) * typical.sd;
  return increasingRoot(at, start, typical.centre - width, typical.centre + width, 1e-12);
}
