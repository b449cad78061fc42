import { significant, percent } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable, cleanSample } from "../result";
import { incompleteBeta } from "../special/incomplete-beta";
import { requireQuestion } from "./tolerance-factor";

/** A lower bound that assumes no distribution. */
export interface OrderStatisticBound extends Account {
  status: "ok";
  value: number;
  /** Rank of the bounding value, 1 = the least. */
  rank: number;
  /** Confidence reached, at least the one asked for. */
  confidenceReached: number;
}

/**
 * Number of tests from which the least of them bounds the fractile from below with the given
 * confidence: the smallest n with 1 − (1 − p)^n ≥ confidence.
 * @example testsNeededForOrderStatistic() // 45 for 5 % at 90 %
 */
export function testsNeededForOrderStatistic(
  fractile: number = 0.05,
  confidence: number = 0.9,
): number {
  requireQuestion("testsNeededForOrderStatistic", 1, fractile, confidence);
  // One below the logarithmic formula may do after rounding; check.
  let n = Math.max(1, Math.ceil(Math.log1p(-confidence) / Math.log1p(-fractile)) - 1);
  while (-Math.expm1(n * Math.log1p(-fractile)) < confidence) n += 1;
  return n;
}

/**
 * Nonparametric lower bound of a fractile: the largest order statistic x_(r) with
 * P(x_(r) ≤ fractile) = I_p(r, n − r + 1) ≥ confidence (Wilks 1941).
 */
export function orderStatisticBound(
  values: ArrayLike<number>,
  options: { fractile?: number; confidence?: number } = {},
): OrderStatisticBound | NotEstimable {
  const { fractile = 0.05, confidence = 0.9 } = options;
  const method = "Order-statistic bound (no distribution assumed)";
  const { values: x, excluded } = cleanSample(values, "orderStatisticBound");
  const n = x.length;
  const needed = testsNeededForOrderStatistic(fractile, confidence);
  if (n < needed)
    return notEstimable(
      method,
      "too few values",
      `at least ${needed} for the ${percent(fractile)} fractile at ${percent(confidence)} confidence`,
      n,
      excluded,
    );
  const reached = (rank: number): number =>
    incompleteBeta(rank, n - rank + 1, fractile, 1 - fractile).lower;
  let rank = 1;
  while (rank < n && reached(rank + 1) >= confidence) rank += 1;
  const value = x.sort((a, b) => a - b)[rank - 1]!;
  const confidenceReached = reached(rank);
  return {
    status: "ok",
    value,
    rank,
    confidenceReached,
    n,
    method,
    excluded,
    assumptions: ["values independent and of one continuous population"],
    reading: `With ${percent(confidenceReached)} confidence at least ${percent(1 - fractile)} of the population lies above ${significant(value)}, value ${rank} of ${n} in ascending order.`,
  };
}
