import { percent, significant } from "../reading";
import { notEstimable, type Account, type NotEstimable } from "../result";
import { toleranceFactor } from "../tolerance/tolerance-factor";
import { oneWayLayout, seriesSums, type OneWayLayout } from "./one-way-layout";

/**
 * A lower tolerance bound of tests in series by the analysis of variance, with all that is needed
 * to check it by hand.
 */
export interface AnalysisOfVarianceBound extends Account {
  readonly status: "ok";
  readonly value: number;
  readonly mean: number;
  /** √(MS_between/n₀ + (1 − 1/n₀) MS_within). */
  readonly sd: number;
  readonly k: number;
  readonly layout: OneWayLayout;
}

/**
 * Factor on the SD of a single test, between that of as many tests and that of as many series: K =
 * (K_n − K_k/√n₀ + (K_k − K_n) W)/(1 − 1/√n₀), W² = u/(u + n₀ − 1), u = MS_between/MS_within, not
 * below 1. W is the SD of a series mean over that of a single test: series all alike give K_n,
 * tests of a series all alike K_k.
 *
 * Source: Vangel, "New methods for one-sided tolerance limits for a one-way balanced random-effects
 * ANOVA model", Technometrics 34 (1992); CMH-17-1G section 8.3.5.2 (n₀ there for unequal sizes).
 */
export function layoutToleranceFactor(
  layout: OneWayLayout,
  fractile: number,
  confidence: number,
): number {
  const ofTests = toleranceFactor({ n: layout.n, fractile, confidence });
  if (layout.n === layout.series) return ofTests;
  const [size, u] = [
    layout.typicalSize,
    Math.max(1, layout.meanSquareBetween / layout.meanSquareWithin),
  ];
  const [w, least] = [
    layout.meanSquareWithin > 0 ? Math.sqrt(u / (u + size - 1)) : 1,
    1 / Math.sqrt(size),
  ];
  return (
    ofTests +
    ((toleranceFactor({ n: layout.series, fractile, confidence }) - ofTests) * (w - least)) /
      (1 - least)
  );
}

/** SD of a single test of any series. */
function layoutSd({ typicalSize, meanSquareBetween, meanSquareWithin }: OneWayLayout): number {
  return Math.sqrt(meanSquareBetween / typicalSize + (1 - 1 / typicalSize) * meanSquareWithin);
}

/**
 * Lower tolerance bound of tests in series, none of them a lower bound, by the analysis-of-variance
 * method of the composite materials handbook: mean − K SD with {@link layoutToleranceFactor}. It
 * can be checked by hand.
 *
 * Limits: normal values; equal sizes are what it was made for: with very unequal ones that differ
 * much it held 85 to 88 % of 90 stated (bench `statistics-series`), which `characteristicBySeries`
 * does not.
 * @returns "cannot be estimated" with fewer than 3 series, or without scatter
 * @throws RangeError for columns of different length, or a fractile or confidence outside 0 to 1
 * @example boundByAnalysisOfVariance({ values, series, fractile: 0.1, confidence: 0.95 }).value
 */
export function boundByAnalysisOfVariance({
  values,
  series,
  fractile = 0.05,
  confidence = 0.9,
}: {
  readonly values: readonly number[];
  readonly series: readonly (string | number)[];
  readonly fractile?: number;
  readonly confidence?: number;
}): AnalysisOfVarianceBound | NotEstimable {
  if (series.length !== values.length)
    throw new RangeError(
      `boundByAnalysisOfVariance: ${values.length} values and ${series.length} names of series, expected equal numbers`,
    );
  const method = "One-sided tolerance bound by analysis of variance";
  // About their mean, sums of squares keep their digits.
  const shift = values.reduce((sum, value) => sum + value, 0) / values.length;
  const layout = oneWayLayout(
    seriesSums(
      values.map((value) => value - shift),
      series,
    ),
  );
  if (layout === null || layout.series < 3)
    return notEstimable(method, "too few series", "at least 3 series", values.length);
  const sd = layoutSd(layout);
  if (!(sd > 0)) return notEstimable(method, "no spread", "values that differ", values.length);
  const k = layoutToleranceFactor(layout, fractile, confidence);
  const value = shift - k * sd;
  return {
    status: "ok",
    value,
    mean: shift,
    sd,
    k,
    layout: { ...layout, mean: shift },
    method,
    n: values.length,
    excluded: [],
    assumptions: [
      "values normal within a series and between series, with the same scatter in each",
      "series independent and of about equal size",
    ],
    reading: `With ${percent(confidence)} confidence at least ${percent(1 - fractile)} of the population lies above ${significant(value)} (n = ${values.length} in ${layout.series} series, k = ${k.toFixed(3)}).`,
  };
}
