import type { Evidence } from "../../comparison";
import { fitCensored } from "../../statistics";
import { stepsOf } from "../../statistics/censoring/kaplan-meier";
import { correlationOf, oneWayLayout, seriesSums } from "../../statistics/series/one-way-layout";

/** What is taken for the truth when a campaign is simulated: the law of test/predicted in one mode. */
export interface RatioModel {
  readonly distribution: "normal" | "lognormal";
  /** Location and scale of the ratio (normal) or of its logarithm, lower bounds counted as such. */
  readonly location: number;
  readonly scale: number;
  /** Share of the variance that lies between series: tests of one series share their concrete, hole and day. */
  readonly betweenShare: number;
  /** Loads at which tests stopped before the mode (grip, bar, jack), as ratios on the law's scale, by Kaplan-Meier. */
  readonly limits: readonly { readonly value: number; readonly survival: number }[];
  readonly n: number;
  readonly nCensored: number;
}

const FEWEST = 3;

/** Fits the law of a group of ratios; null where fewer than 3 tests failed in the mode or they do not scatter. */
export function ratioModelOf(evidence: readonly Evidence[], seriesOf: (row: number) => string, distribution: "normal" | "lognormal" = "normal"): RatioModel | null {
  const failed = evidence.filter(({ bound }) => !bound);
  if (failed.length < FEWEST) return null;
  const fit = fitCensored({ values: evidence.map(({ ratio }) => ratio), censored: evidence.map(({ bound }) => bound), distribution });
  if (fit.status === "cannot tell" || !(fit.scale > 0)) return null;
  const onLaw = (ratio: number): number => (distribution === "lognormal" ? Math.log(ratio) : ratio);
  const values = Float64Array.from(evidence, ({ ratio }) => onLaw(ratio));
  const limits = stepsOf(values, Uint8Array.from(evidence, ({ bound }) => (bound ? 0 : 1)), 1).filter(({ failures }) => failures > 0);
  // The maximum-likelihood scale is a little small for few tests; without bounds the usual divisor is known.
  const scale = failed.length === evidence.length ? fit.scale * Math.sqrt(failed.length / (failed.length - 1)) : fit.scale;
  return { distribution, location: fit.location, scale, betweenShare: betweenSeries(failed.map(({ ratio, row }) => ({ value: onLaw(ratio), series: seriesOf(row) }))), limits, n: failed.length, nCensored: evidence.length - failed.length };
}

/** Variance between series over the whole, by the moments of a one-way analysis of variance; 0 where it cannot be told. */
export function betweenSeries(values: readonly { readonly value: number; readonly series: string }[]): number {
  const layout = oneWayLayout(seriesSums(values.map(({ value }) => value), values.map(({ series }) => series)));
  return layout === null ? 0 : correlationOf(layout);
}
