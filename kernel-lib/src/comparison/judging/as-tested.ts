import { characteristicValue, RandomEffectsModel, toleranceFactor } from "../../statistics";
import { NoMaximumError } from "../../statistics/censoring/censored-likelihood";
import type { Question } from "./question";
import type { GroupTest } from "./tests-of-group";

/** Fewest failures from which a fractile is estimated. */
export const FEWEST_TESTS = 3;

/** Estimate and bounds of a fractile, or why there are none. */
export type Bounds =
  | {
      readonly fractile: number;
      readonly lower: number;
      readonly upper: number;
      readonly k: number | null;
    }
  | { readonly refusal: string };

/**
 * The fractile of the bars, concrete and adhesive of these series: every test independent of the
 * others. Without lower bounds mean - K s with the exact one-sided tolerance factors of the
 * noncentral t distribution at the stated confidence, at 50 % (median estimate) and at 1 -
 * confidence (upper bound). With lower bounds the numbers of tests behind the same law come from
 * the observed information of the censored likelihood (`RandomEffectsModel`, series effect left
 * out); for 90 % stated it held 91 to 93 % below and 86 to 90 % above with 5 to 30 tests, a third
 * of them lower bounds. Failures that are all equal have their own value as fractile, without
 * scatter.
 */
export function boundsAsTested(
  tests: readonly GroupTest[],
  { fractile, confidence, distribution }: Question,
): Bounds {
  const failures = tests.filter(({ lowerBound }) => !lowerBound).map(({ ratio }) => ratio);
  if (failures.length < FEWEST_TESTS)
    return {
      refusal: `${failures.length} of ${tests.length} tests failed in this mode; at least ${FEWEST_TESTS} are needed`,
    };
  if (failures.every((value) => value === failures[0]))
    return { fractile: failures[0]!, lower: failures[0]!, upper: failures[0]!, k: null };
  if (failures.length === tests.length)
    return exact(failures, { fractile, confidence, distribution });
  const onLogs = distribution === "lognormal";
  const back = (y: number): number => (onLogs ? Math.exp(y) : y);
  try {
    const model = new RandomEffectsModel({
      y: tests.map(({ ratio }) => (onLogs ? Math.log(ratio) : ratio)),
      censored: tests.map(({ lowerBound }) => lowerBound),
      series: tests.map((_, i) => i),
      pointOf: tests.map(() => 0),
      points: [[1]],
      cells: 1,
      independent: true,
    });
    const { estimate, lower, upper } = model.fractile([1], { fractile, confidence });
    return { fractile: back(estimate), lower: back(lower), upper: back(upper), k: null };
  } catch (error) {
    if (error instanceof NoMaximumError) return { refusal: error.message };
    throw error;
  }
}

function exact(
  values: readonly number[],
  {
    fractile,
    confidence,
    distribution,
  }: Pick<Question, "fractile" | "confidence" | "distribution">,
): Bounds {
  const found = characteristicValue(values, { fractile, confidence, distribution });
  if (found.status !== "ok") return { refusal: found.reason };
  const onLogs = distribution === "lognormal";
  const y = onLogs ? values.map(Math.log) : values;
  const mean = y.reduce((sum, value) => sum + value, 0) / y.length;
  const sd = Math.sqrt(y.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (y.length - 1));
  const at = (level: number): number => {
    const value = mean - toleranceFactor({ n: y.length, fractile, confidence: level }) * sd;
    return onLogs ? Math.exp(value) : value;
  };
  return { fractile: at(0.5), lower: found.value, upper: at(1 - confidence), k: found.k };
}
