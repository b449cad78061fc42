import { counted, significant } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable, cleanSample, joinSetAside } from "../result";
import { sumOfSquares } from "./moments";

/** A standard deviation pooled within several series. */
export interface PooledSd extends Account {
  status: "ok";
  sd: number;
  degreesOfFreedom: number;
  series: number;
}

/**
 * SD pooled within series: s² = Σ SS_i / Σ (n_i − 1). A series of one value adds nothing and is set
 * aside.
 * @example characteristicValue([9, 11, 12], { pooledSd: pooledSd([[9, 11, 12], [10, 13, 14]]) })
 */
export function pooledSd(series: readonly ArrayLike<number>[]): PooledSd | NotEstimable {
  const method = "Standard deviation pooled within series";
  const cleaned = series.map((values) => cleanSample(values, "pooledSd"));
  const used = cleaned.filter(({ values }) => values.length >= 2);
  const lone = cleaned.length - used.length;
  const excluded = joinSetAside(
    ...cleaned.map((sample) => sample.excluded),
    lone > 0 ? [{ count: lone, reason: "series with fewer than 2 values" }] : [],
  );
  const n = used.reduce((sum, { values }) => sum + values.length, 0);
  if (used.length === 0)
    return notEstimable(method, "too few values", "at least one series of 2 values", n, excluded);
  const degreesOfFreedom = n - used.length;
  const sd = Math.sqrt(
    used.reduce((sum, { values }) => sum + sumOfSquares(values), 0) / degreesOfFreedom,
  );
  if (sd === 0)
    return notEstimable(method, "no spread", "a series whose values differ", n, excluded);
  return {
    status: "ok",
    method,
    sd,
    degreesOfFreedom,
    series: used.length,
    n,
    excluded,
    assumptions: ["the same SD in every series", "values independent"],
    reading: `The SD within series is ${significant(sd)}, from ${counted(used.length, "series", "series")} with ${counted(degreesOfFreedom, "degree")} of freedom.`,
  };
}
