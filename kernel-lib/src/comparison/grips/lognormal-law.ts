import { RandomEffectsModel } from "../../statistics";
import { NoMaximumError } from "../../statistics/censoring/censored-likelihood";
import { ENOUGH } from "../judging/cells";
import { FEWEST_TESTS } from "../judging/as-tested";

/** A value of a test: what it failed at, or a lower bound of that. */
export interface LawTest {
  readonly value: number;
  readonly lowerBound: boolean;
  readonly series: string;
}

/** A lognormal law of a single test of a further series, with its 5 and 95 % fractiles. */
export interface LognormalLaw {
  /** Tests that failed, lower bounds, and series with a failure. */
  readonly failures: number;
  readonly lowerBounds: number;
  readonly series: number;
  readonly median: number;
  readonly sdLog: number;
  readonly cov: number;
  /** Low fractile (5 % unless asked otherwise): median estimate and lower one-sided bound. */
  readonly low: { readonly estimate: number; readonly bound: number };
  /** High fractile (95 % unless asked otherwise): median estimate and upper one-sided bound. */
  readonly high: { readonly estimate: number; readonly bound: number };
  /**
   * Ignored where fewer than 3 series failed: every test is then taken for independent, and bounds
   * may be unsafe.
   */
  readonly seriesEffect: "included" | "ignored";
}

export interface LawQuestion {
  /** Share below the low and above the high fractile; default 0.05. */
  readonly fractile?: number;
  /** One-sided confidence of each bound; default 0.90. */
  readonly confidence?: number;
}

/**
 * Fits ln(value) = mu + b + e, b normal between series, e normal within them, lower bounds treated
 * as right-censored (`RandomEffectsModel`). Failures in fewer than 3 series: the series effect is
 * ignored, and said to be.
 * @returns the law, or the reason why there is none: fewer than 3 failures, no scatter
 */
export function lognormalLaw(
  tests: readonly LawTest[],
  question: LawQuestion = {},
): LognormalLaw | string {
  const { fractile = 0.05, confidence = 0.9 } = question;
  const failed = tests.filter(({ lowerBound }) => !lowerBound);
  const series = new Set(failed.map((test) => test.series)).size;
  if (failed.length < FEWEST_TESTS) {
    return `${failed.length} of ${tests.length} tests failed in this mode; at least ${FEWEST_TESTS} are needed`;
  }
  const independent = series < ENOUGH || tests.some((test) => test.series === "");
  try {
    const model = new RandomEffectsModel({
      y: tests.map(({ value }) => Math.log(value)),
      censored: tests.map(({ lowerBound }) => lowerBound),
      series: tests.map((test, i) => (independent ? i : test.series)),
      pointOf: tests.map(() => 0),
      points: [[1]],
      cells: 1,
      independent,
    });
    const sdLog = model.sd;
    const low = model.fractile([1], { fractile, confidence });
    const high = model.fractile([1], { fractile: 1 - fractile, confidence });
    return {
      failures: failed.length,
      lowerBounds: tests.length - failed.length,
      series,
      median: Math.exp(model.mean([1])),
      sdLog,
      cov: Math.sqrt(Math.expm1(sdLog * sdLog)),
      low: { estimate: Math.exp(low.estimate), bound: Math.exp(low.lower) },
      high: { estimate: Math.exp(high.estimate), bound: Math.exp(high.upper) },
      seriesEffect: independent ? "ignored" : "included",
    };
  } catch (error) {
    if (error instanceof NoMaximumError) return error.message;
    throw error;
  }
}
