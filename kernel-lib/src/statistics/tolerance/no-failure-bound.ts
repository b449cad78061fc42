import { percent, significant } from "../reading";
import { notEstimable, cleanSample, type Account, type NotEstimable } from "../result";
import { testsNeededForOrderStatistic } from "./order-statistic-bound";

/** A lower bound of a fractile from tests of which none failed. */
export interface NoFailureBound extends Account {
  readonly status: "ok";
  readonly value: number;
  /** Tests that reached `value`. */
  readonly reached: number;
}

/**
 * Lower bound of a fractile from lower bounds alone: where m = ln(1 − C)/ln(1 − p) tests, rounded
 * up, reached a value and none failed, at most a share p fails below it with confidence C (success
 * run). The bound is the m-th largest value.
 *
 * Limits: no distribution is assumed; tests are independent; what none of the tests reached is not
 * known. Source: the binomial with no failure, (1 − p)^m ≤ 1 − C; as in the bound by order
 * statistics (Wilks 1941).
 * @returns the bound, or "cannot be estimated" with fewer than m tests (45 for 5 % at 90 %)
 * @throws RangeError for a fractile or confidence outside 0 to 1, or an infinite value
 * @example noFailureBound(Array.from({ length: 50 }, (_, i) => 0.4 + 0.01 * i))
 */
export function noFailureBound(
  reachedWithoutFailure: ArrayLike<number>,
  options: { fractile?: number; confidence?: number } = {},
): NoFailureBound | NotEstimable {
  const { fractile = 0.05, confidence = 0.9 } = options;
  const method = "Success run (no failure, no distribution assumed)";
  const { values, excluded } = cleanSample(reachedWithoutFailure, "noFailureBound");
  const needed = testsNeededForOrderStatistic(fractile, confidence);
  const need = `at least ${needed} for the ${percent(fractile)} fractile at ${percent(confidence)} confidence`;
  if (values.length < needed)
    return notEstimable(method, "too few values", need, values.length, excluded);
  const value = values.sort((a, b) => b - a)[needed - 1]!;
  return {
    status: "ok",
    method,
    n: values.length,
    excluded,
    value,
    reached: values.filter((one) => one >= value).length,
    assumptions: ["tests are independent and of one population"],
    reading:
      `With ${percent(confidence)} confidence at most ${percent(fractile)} fail below ${significant(value)}, ` +
      `which ${needed} of ${values.length} tests reached without failure.`,
  };
}
