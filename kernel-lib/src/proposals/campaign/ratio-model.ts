import type { GroupTest } from "../../comparison";
import { normal, RandomEffectsModel, type SeriesLaw, type UncertainLaw } from "../../statistics";
import { NoMaximumError } from "../../statistics/censoring/censored-likelihood";

/**
 * The law of test/predicted in one mode as far as tests show it: what campaigns are simulated from.
 */
export interface RatioModel {
  readonly distribution: "normal" | "lognormal";
  /** Law of the ratio (normal) or of its logarithm, with its uncertainty. */
  readonly laws: readonly UncertainLaw[];
  /** Median estimate of the fractile of a further test of a further series, as a ratio. */
  readonly fractile: number;
  /** Most likely share of the variance between series. */
  readonly icc: number;
}

/** Series with a failure without which the variance between series cannot be estimated. */
export const FEWEST_FAILED_SERIES = 3;

/** Distribution of the law, and the fractile that is estimated. */
export interface LawQuestion {
  readonly distribution: "normal" | "lognormal";
  readonly fractile: number;
}

/**
 * The law of a group of ratios with its uncertainty, lower bounds counted as such and the series
 * effect included.
 * @returns null where fewer than 3 series failed, a test names no series, or no scatter can be
 *   estimated
 */
export function ratioModelOf(
  tests: readonly GroupTest[],
  question: LawQuestion,
): RatioModel | null {
  const { distribution, fractile } = question;
  const failed = new Set(tests.filter(({ lowerBound }) => !lowerBound).map(({ series }) => series));
  if (failed.size < FEWEST_FAILED_SERIES || tests.some(({ series }) => series === "")) return null;
  const onLogs = distribution === "lognormal";
  try {
    const model = new RandomEffectsModel({
      y: tests.map(({ ratio }) => (onLogs ? Math.log(ratio) : ratio)),
      censored: tests.map(({ lowerBound }) => lowerBound),
      series: tests.map(({ series }) => series),
      pointOf: tests.map(() => 0),
      points: [[1]],
      cells: 1,
    });
    const { estimate } = model.fractile([1], { fractile, confidence: 0.5 });
    return {
      distribution,
      laws: model.laws([1]),
      fractile: onLogs ? Math.exp(estimate) : estimate,
      icc: model.correlation,
    };
  } catch (error) {
    if (error instanceof NoMaximumError) return null;
    throw error;
  }
}

/** A law taken as known, for checks: mean and SD of the ratio (normal) or of its logarithm. */
export function knownLaw(law: SeriesLaw & Partial<LawQuestion>): RatioModel {
  const { distribution = "normal", mean, sd, correlation, fractile = 0.05 } = law;
  const at = mean + normal().quantile(fractile) * sd;
  return {
    distribution,
    fractile: distribution === "lognormal" ? Math.exp(at) : at,
    icc: correlation,
    laws: [
      {
        weight: 1,
        centre: mean,
        shift: 0,
        sd,
        count: Infinity,
        degreesOfFreedom: Infinity,
        correlation,
      },
    ],
  };
}
