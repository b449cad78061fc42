import { increasingRoot } from "../special/monotone-root";
import { normalDensity, normalIntegral } from "../special/normal-integral";
import { gaussLegendre } from "../special/quadrature";
import { logScaledChiDensity } from "../special/scaled-chi";
import type { FitOfMean } from "./fit-at-correlation";

/** What a fit says of a mean, with what the tests make of its correlation. */
export interface WeightedMean {
  readonly fit: FitOfMean;
  readonly weight: number;
}

const NODES = 40;
/**
 * SD from the mean within which a bound is looked for; K of 2 tests at 99.9 % confidence and 0.1 %
 * is 2500.
 */
const FARTHEST = 1e5;

/** Nodes of S = sqrt(chi2_nu/nu), with weights that hold its density and sum to 1. */
function chiNodes(degreesOfFreedom: number): {
  readonly s: Float64Array;
  readonly weight: Float64Array;
} {
  const { nodes, weights } = gaussLegendre(NODES);
  const density = logScaledChiDensity(degreesOfFreedom);
  const spread = 1 / Math.sqrt(2 * degreesOfFreedom);
  const [from, to] = [Math.max(0, 1 - 6.5 * spread), 1 + 6.5 * spread + 4 / (degreesOfFreedom + 1)];
  const s = nodes.map((node) => from + ((to - from) * (1 + node)) / 2);
  const raw = weights.map((one, i) => one * Math.exp(density(s[i]!)));
  const total = raw.reduce((sum, one) => sum + one, 0);
  return { s, weight: raw.map((one) => one / total) };
}

/** The sample of independent tests that a fit is worth. */
export interface Worth {
  readonly centre: number;
  readonly shift: number;
  readonly sd: number;
  readonly count: number;
  readonly degreesOfFreedom: number;
}

/**
 * The sample of independent tests that a fit is worth: n' tests about `centre`, nu' degrees of
 * freedom of `sd`. The centre mu + a sigma is the point whose error is uncorrelated with that of ln
 * sigma; without lower bounds a = 0, n' = sum n/(1 + (n - 1) rho) and nu' = n - p with p means
 * estimated, so that a known rho has the exact factor.
 */
export function worthOf({ mean, sd, information: [mm, ms, ss], effects }: FitOfMean): Worth {
  const shift = ms / mm / sd;
  const tests = (ss - (ms * ms) / mm) / 2;
  const degreesOfFreedom = Math.max(1, tests - effects);
  return {
    centre: mean + shift * sd,
    shift,
    sd: sd * Math.sqrt(tests / degreesOfFreedom),
    count: sd * sd * mm,
    degreesOfFreedom,
  };
}

/** The distribution of mu - z sigma, mixed over the correlation. */
export interface FractileMixture {
  /** L with P(mu - z sigma <= L) = probability. */
  quantile(probability: number): number;
  /** P(mu - z sigma <= bound). */
  below(bound: number): number;
}

/**
 * The distribution of the fractile mu - z sigma: for each correlation the law behind the exact
 * one-sided factor (normal mean, chi of the SD), the correlations mixed by their weights. Its 10,
 * 50 and 90 % points are the lower bound at 90 % confidence, the median estimate and the upper
 * bound at 90 % confidence.
 */
export function fractileMixture(means: readonly WeightedMean[], z: number): FractileMixture {
  // Without lower bounds every fit has the same degrees of freedom.
  const known = new Map<number, ReturnType<typeof chiNodes>>();
  const nodesOf = (degrees: number): ReturnType<typeof chiNodes> => {
    const nodes = known.get(degrees) ?? chiNodes(degrees);
    known.set(degrees, nodes);
    return nodes;
  };
  const parts = means
    .filter(({ weight }) => weight > 1e-9)
    .map(({ fit, weight }) => {
      const worth = worthOf(fit);
      return {
        ...worth,
        ...nodesOf(worth.degreesOfFreedom),
        share: weight,
        root: Math.sqrt(worth.count),
        below: z + worth.shift,
      };
    });
  const whole = parts.reduce((sum, { share }) => sum + share, 0);
  const typical = parts.reduce((best, one) => (one.share > best.share ? one : best));
  const width = FARTHEST * Math.max(...parts.map(({ sd }) => sd));
  const quantile = (probability: number): number => {
    const at = (bound: number): { value: number; slope: number } => {
      let [value, slope] = [-probability * whole, 0];
      for (const { centre, sd, root, below, s, weight, share } of parts) {
        const step = (root * (bound - centre)) / sd;
        for (let i = 0; i < s.length; i += 1) {
          const x = step * s[i]! + root * below;
          value += share * weight[i]! * normalIntegral(x);
          slope += share * weight[i]! * normalDensity(x) * ((root * s[i]!) / sd);
        }
      }
      // Far from the root the slope is lost to rounding: then the search halves its bracket.
      return { value, slope: Math.max(slope, 1e-300) };
    };
    const deviate = probability < 0.4 ? 1.3 : probability > 0.6 ? -1.3 : 0;
    const start =
      typical.centre -
      (typical.below +
        deviate / typical.root +
        (deviate * z) / Math.sqrt(2 * typical.degreesOfFreedom)) *
        typical.sd;
    return increasingRoot(at, start, typical.centre - width, typical.centre + width, 1e-12);
  };
  const below = (bound: number): number => {
    let value = 0;
    for (const { centre, sd, root, below: distance, s, weight, share } of parts) {
      const step = (root * (bound - centre)) / sd;
      for (let i = 0; i < s.length; i += 1)
        value += share * weight[i]! * normalIntegral(step * s[i]! + root * distance);
    }
    return value / whole;
  };
  return { quantile, below };
}
