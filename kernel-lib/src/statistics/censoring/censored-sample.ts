import { counted, significant } from "../reading";
import { notEstimable, joinSetAside, type NotEstimable, type NotEstimableReason } from "../result";
import type { CensoredSample } from "./censored-profile";
import type { CensoredDistribution } from "./location-scale-law";

/** A row that a censored analysis cannot use, and why. */
export interface CensoredSetAside {
  readonly row: number;
  readonly reason: string;
}

/** Why a censored sample gives no estimate, and what would be needed. */
export interface Lack {
  readonly reason: NotEstimableReason;
  readonly needed: string;
}

export interface GatheredSample {
  readonly sample: CensoredSample;
  /** Values as given, without logs. */
  readonly values: Float64Array;
  readonly rows: Int32Array;
  readonly clusters: readonly (string | number)[] | null;
  readonly failures: number;
  readonly excluded: readonly CensoredSetAside[];
  /** null when the sample can be fitted. */
  readonly lack: Lack | null;
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
 * cluster are excluded; at least two different failure values are needed, since one
 * failure says nothing of the scatter.
 *
 * @throws RangeError when the columns differ in length
 */
export function gatherCensored(
  input: CensoredInput,
  distribution: CensoredDistribution | null,
): GatheredSample {
  const total = input.values.length;
  if (input.censored.length !== total)
    throw new RangeError(
      `Censoring flags: got ${input.censored.length}, expected ${total}, one per value`,
    );
  if (input.clusters !== undefined && input.clusters.length !== total)
    throw new RangeError(
      `Clusters: got ${input.clusters.length}, expected ${total}, one per value`,
    );
  const rows: number[] = [];
  const excluded: CensoredSetAside[] = [];
  for (let i = 0; i < total; i += 1) {
    const label = input.clusters?.[i];
    if (!Number.isFinite(input.values[i])) excluded.push({ row: i, reason: "no finite value" });
    else if (
      input.clusters !== undefined &&
      (label === undefined || label === "" || Number.isNaN(label))
    )
      excluded.push({ row: i, reason: "no series named" });
    else rows.push(i);
  }
  const values = Float64Array.from(rows, (i) => input.values[i]!);
  const censored = Uint8Array.from(rows, (i) => (input.censored[i] ? 1 : 0));
  const clusters = input.clusters === undefined ? null : rows.map((i) => input.clusters![i]!);
  const onLogs = distribution === "lognormal" || distribution === "weibull";
  const failed = values.filter((_, i) => censored[i] === 0);
  return {
    sample: { y: onLogs ? values.map(Math.log) : values, censored },
    values,
    rows: Int32Array.from(rows),
    clusters,
    failures: failed.length,
    excluded,
    lack: lackOf(values, failed, distribution, onLogs, clusters),
  };
}

function lackOf(
  values: Float64Array,
  failed: Float64Array,
  distribution: CensoredDistribution | null,
  onLogs: boolean,
  clusters: readonly (string | number)[] | null,
): Lack | null {
  if (values.length === 0)
    return { reason: "too few values", needed: "at least 2 different failures" };
  const lowest = values.reduce((a, b) => Math.min(a, b));
  if (onLogs && lowest <= 0)
    return {
      reason: "values not positive",
      needed: `values above 0 for the ${distribution ?? ""} distribution (the smallest is ${significant(lowest)})`,
    };
  if (failed.length === 0) {
    const highest = values.reduce((a, b) => Math.max(a, b));
    return {
      reason: "nothing failed",
      needed: `at least 2 different failures in this mode (${values.length === 1 ? "the one value is a lower bound" : `all ${values.length} values are lower bounds`}, the highest ${significant(highest)})`,
    };
  }
  if (failed.length === 1)
    return {
      reason: "too few failures",
      needed: `at least 2 different failures in this mode, to estimate the scatter (there is 1 among ${counted(values.length, "value")})`,
    };
  if (failed.every((v) => v === failed[0]))
    return {
      reason: "no spread",
      needed: `at least 2 different failures, to estimate the scatter (all ${failed.length} are ${significant(failed[0]!)})`,
    };
  if (clusters !== null && new Set(clusters).size < 2)
    return {
      reason: "one series only",
      needed: "at least 2 series (or no series named, which ignores the series effect)",
    };
  return null;
}

/**
 * The named result of a censored sample that gives no estimate; rows excluded are counted by their
 * reason.
 */
export function notEstimableFrom(
  gathered: Pick<GatheredSample, "values" | "excluded">,
  method: string,
  { reason, needed }: Lack,
): NotEstimable {
  return notEstimable(
    method,
    reason,
    needed,
    gathered.values.length,
    joinSetAside(gathered.excluded.map((row) => ({ count: 1, reason: row.reason }))),
  );
}
