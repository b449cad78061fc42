import { clusterSandwich, type CensoredInformation } from "./censored-information";
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

/** @throws RangeError for fewer than two clusters */
export function clusterCovariance(sample: CensoredSample, law: LocationScaleLaw, information: CensoredInformation, clusters: readonly (string | number)[], wanted: ClusterMethod): ClusterCovariance {
  const jackknife = wanted === "jackknife" ? clusterJackknife(sample, law, clusters) : null;
  return jackknife === null ? { ...clusterSandwich(information, clusters), method: "sandwich" } : { ...jackknife, method: "jackknife" };
}

export const CLUSTER_WORDS: Record<ClusterMethod, string> = {
  jackknife: "standard errors from leaving out one cluster at a time",
  sandwich: "cluster-robust standard errors",
};

/** What few clusters mean for an interval; the limit of 10 is common practice, no source. */
export function clusterWarnings({ count, method }: Pick<ClusterCovariance, "count" | "method">): string[] {
  if (count >= 10) return [];
  return [method === "sandwich"
    ? `Only ${count} clusters: cluster-robust standard errors are known to come out too small below about 10 (common practice, no source)`
    : `Only ${count} clusters: how much series differ is hardly known, so intervals are wide and still rough below about 10 (common practice, no source)`];
}
