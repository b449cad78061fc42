import type { CensoredSample } from "./censored-profile";
import type { CensoredDistribution } from "./location-scale-law";

/** A row that a censored analysis cannot use, and why. */
export interface CensoredSetAside {
  readonly row: number;
  readonly reason: string;
}

/** Why a censored sample gives no estimate. */
export type CensoredRefusal = "no_rows" | "all_censored" | "too_few_failures" | "no_scatter" | "not_positive" | "no_maximum" | "one_cluster";

export interface GatheredSample {
  readonly sample: CensoredSample;
  /** Values as given, without logs. */
  readonly values: Float64Array;
  readonly rows: Int32Array;
  readonly clusters: readonly (string | number)[] | null;
  readonly failures: number;
  readonly setAside: readonly CensoredSetAside[];
  readonly refusal: { readonly code: CensoredRefusal; readonly needed: string } | null;
}

export interface CensoredInput {
  /** Peak loads or ratios; a censored one is only a lower bound. */
  readonly values: ArrayLike<number>;
  /** True where the value is only a lower bound of what would have failed. */
  readonly censored: ArrayLike<boolean | number>;
  /** Series or study of each row; rows of one share an error. */
  readonly clusters?: ArrayLike<string | number>;
}

/**
 * Gathers usable rows and says whether they can be fitted: rows with a missing value or blank
 * cluster are set aside; at least two different failure values are needed, since one
 * failure says nothing of the scatter.
 *
 * @throws RangeError when the columns differ in length
 */
export function gatherCensored(input: CensoredInput, distribution: CensoredDistribution | null): GatheredSample {
  const total = input.values.length;
  if (input.censored.length !== total) throw new RangeError(`Censoring flags: got ${input.censored.length}, expected ${total}, one a value`);
  if (input.clusters !== undefined && input.clusters.length !== total) throw new RangeError(`Clusters: got ${input.clusters.length}, expected ${total}, one a value`);
  const rows: number[] = [];
  const setAside: CensoredSetAside[] = [];
  for (let i = 0; i < total; i += 1) {
    const label = input.clusters?.[i];
    if (!Number.isFinite(input.values[i])) setAside.push({ row: i, reason: "no finite value" });
    else if (input.clusters !== undefined && (label === undefined || label === "" || Number.isNaN(label))) setAside.push({ row: i, reason: "no series named" });
    else rows.push(i);
  }
  const values = Float64Array.from(rows, (i) => input.values[i]!);
  const censored = Uint8Array.from(rows, (i) => (input.censored[i] ? 1 : 0));
  const clusters = input.clusters === undefined ? null : rows.map((i) => input.clusters![i]!);
  const onLogs = distribution === "lognormal" || distribution === "weibull";
  const failed = values.filter((_, i) => censored[i] === 0);
  return {
    sample: { y: onLogs ? values.map(Math.log) : values, censored },
    values, rows: Int32Array.from(rows), clusters, failures: failed.length, setAside,
    refusal: whyRefused(values, failed, distribution, onLogs, clusters),
  };
}

function whyRefused(values: Float64Array, failed: Float64Array, distribution: CensoredDistribution | null, onLogs: boolean, clusters: readonly (string | number)[] | null): GatheredSample["refusal"] {
  if (values.length === 0) return { code: "no_rows", needed: "no usable value is given; at least two failures are needed" };
  const lowest = values.reduce((a, b) => Math.min(a, b));
  if (onLogs && lowest <= 0) return { code: "not_positive", needed: `the smallest value is ${lowest}, and the ${distribution ?? ""} distribution needs values above 0` };
  if (failed.length === 0) {
    const highest = values.reduce((a, b) => Math.max(a, b));
    return { code: "all_censored", needed: `all ${values.length} values are lower bounds (the highest ${highest}): nothing failed in this mode, so neither its mean nor its scatter can be told` };
  }
  if (failed.length === 1) return { code: "too_few_failures", needed: `only 1 of ${values.length} values is a failure in this mode; at least 2 different failures are needed to tell a scatter` };
  if (failed.every((v) => v === failed[0])) return { code: "no_scatter", needed: `all ${failed.length} failures have the same value ${failed[0]!}; at least 2 different failures are needed to tell a scatter` };
  if (clusters !== null && new Set(clusters).size < 2) return { code: "one_cluster", needed: "all rows belong to one series; cluster-robust standard errors need at least 2 (leave the clusters out to treat the rows as independent)" };
  return null;
}
