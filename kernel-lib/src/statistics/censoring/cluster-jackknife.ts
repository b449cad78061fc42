import { NoMaximumError } from "./censored-likelihood";
import type { CensoredSample } from "./censored-profile";
import { maximumOf } from "./censored-maximum";
import type { LocationScaleLaw } from "./location-scale-law";

/** What leaving out one series after the other shows. */
export interface ClusterJackknife {
  /** Of (location, ln scale), 2 x 2 by rows. */
  readonly covariance: Float64Array;
  readonly count: number;
  /**
   * Mean of ln scale over the fits without a series: G ln σ − (G − 1) times this is free of the
   * first-order bias.
   */
  readonly meanLogScale: number;
}

/**
 * Covariance of (location, ln scale) by leaving out one series after the other:
 * (G − 1)/G Σ_g (θ_g − θ̄)(θ_g − θ̄)ᵀ, θ_g the fit without series g (Tukey's jackknife over
 * clusters).
 *
 * With few series it is larger than the sandwich, which is known to come out too small there, and
 * errs to the safe side.
 * @returns null where a fit without one of the series does not exist
 */
export function clusterJackknife(
  sample: CensoredSample,
  law: LocationScaleLaw,
  clusters: readonly (string | number)[],
): ClusterJackknife | null {
  const labels = [...new Set(clusters)];
  const count = labels.length;
  const fits: [number, number][] = [];
  for (const label of labels) {
    const kept = clusters.flatMap((one, i) => (one === label ? [] : [i]));
    const rest = {
      y: Float64Array.from(kept, (i) => sample.y[i]!),
      censored: Uint8Array.from(kept, (i) => sample.censored[i]!),
    };
    const failed = rest.y.filter((_, i) => rest.censored[i] === 0);
    if (failed.length < 2 || failed.every((value) => value === failed[0])) return null;
    try {
      const at = maximumOf(rest, law);
      fits.push([at.coefficients[0]!, Math.log(at.sigma)]);
    } catch (error) {
      if (error instanceof NoMaximumError) return null;
      throw error;
    }
  }
  const centre = [0, 1].map((j) => fits.reduce((sum, fit) => sum + fit[j]! / count, 0));
  const entry = (j: number, k: number): number =>
    ((count - 1) / count) *
    fits.reduce((sum, fit) => sum + (fit[j]! - centre[j]!) * (fit[k]! - centre[k]!), 0);
  return {
    covariance: Float64Array.of(entry(0, 0), entry(0, 1), entry(0, 1), entry(1, 1)),
    count,
    meanLogScale: centre[1]!,
  };
}
