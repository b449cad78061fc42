import { clusterSandwich, type CensoredInformation } from "./censored-information";
import { NoMaximumError } from "./censored-likelihood";
import type { CensoredSample } from "./censored-profile";
import { clusterJackknife } from "./cluster-jackknife";
import type { LocationScaleLaw } from "./location-scale-law";

/** How the error of a censored fit is found when rows of one series are alike. */
export type ClusterMethod = "jackknife" | "sandwich";

/** Covariance of (location, ln scale) that allows for series. */
export interface ClusterCovariance {
  readonly covariance: Float64Array;
  readonly count: number;
  /** The method used: the sandwich where a fit without one of the series does not exist. */
  readonly method: ClusterMethod;
}

/**
 * Share of the variance of independent rows below which the series agree to rounding and say
 * nothing of an error.
 */
const NOTHING = 1e-10;

/**
 * Covariance of (location, ln scale) from how the fits differ with the clusters.
 * @throws RangeError for fewer than two clusters
 * @throws NoMaximumError where the clusters are all alike, so that their variance would be 0 and an
 *   interval without width
 */
export function clusterCovariance(
  sample: CensoredSample,
  law: LocationScaleLaw,
  information: CensoredInformation,
  clusters: readonly (string | number)[],
  wanted: ClusterMethod,
): ClusterCovariance {
  const jackknife = wanted === "jackknife" ? clusterJackknife(sample, law, clusters) : null;
  const found =
    jackknife === null
      ? { ...clusterSandwich(information, clusters), method: "sandwich" as const }
      : { ...jackknife, method: "jackknife" as const };
  if ([0, 3].some((k) => !(found.covariance[k]! > NOTHING * information.covariance[k]!))) {
    throw new NoMaximumError(
      `The ${found.count} series give the same estimates, so no standard error can be estimated from their differences`,
    );
  }
  return found;
}

export const CLUSTER_WORDS: Record<ClusterMethod, string> = {
  jackknife: "standard errors by omitting one cluster at a time",
  sandwich: "cluster-robust standard errors",
};

/** What few clusters mean for an interval; the limit of 10 is common practice, no source. */
export function clusterWarnings({
  count,
  method,
}: Pick<ClusterCovariance, "count" | "method">): string[] {
  if (count >= 10) return [];
  return [
    method === "sandwich"
      ? `Only ${count} clusters: cluster-robust standard errors are known to be too small below about 10 (common practice, no source)`
      : `Only ${count} clusters: between-series variance is poorly estimated, so intervals are wide and approximate below about 10 (common practice, no source)`,
  ];
}
