import { createRandom, FEWEST_SERIES, normal } from "../../statistics";
import { limitAbove } from "../../statistics/censoring/characteristic-censored";
import { NoMaximumError } from "../../statistics/censoring/censored-likelihood";
import { maximumOf } from "../../statistics/censoring/censored-maximum";
import { lawOf } from "../../statistics/censoring/location-scale-law";
import { layoutSd, quickFactorBySeries } from "../../statistics/series/analysis-of-variance-bound";
import { addTo, oneWayLayout, type SeriesSums } from "../../statistics/series/one-way-layout";
import { toleranceFactor } from "../../statistics/tolerance";
import type { RatioModel } from "./ratio-model";

/** How a campaign is simulated and what is wanted of it. */
export interface SettleSettings {
  readonly fractile?: number;
  readonly confidence?: number;
  /** Wanted probability that the verdict is the right one; default 0.8. */
  readonly wanted?: number;
  /** Tests of one series, which share an error; default 3. */
  readonly perSeries?: number;
  /** The largest campaign looked at for one cell; default 60 tests. */
  readonly most?: number;
  readonly simulations?: number;
  readonly seed?: number | string;
}

/** How many further tests settle the verdict of a cell. */
export interface TestsToSettle {
  /** The verdict that the fitted law calls for. */
  readonly truth: "meets" | "falls short";
  /** The fractile of the fitted law itself, as a ratio. */
  readonly fractile: number;
  /** Further tests, a whole number of series; 0 where the present ones settle it, null where `most` does not. */
  readonly further: number | null;
  /** Probability of the right verdict with so many; with `most` where that is not enough; the least that further tests would leave of it where none are needed. */
  readonly probability: number;
  /** Probability of the right verdict by number of further tests. */
  readonly curve: readonly { readonly further: number; readonly probability: number }[];
}

/**
 * The further tests after which the verdict of a cell is right with the wanted probability: campaigns are drawn from
 * the fitted law, new series with an error of their own, stopped by grip, bar or jack as the present tests were, and
 * judged together with the present tests: counted by series from 3 series with a failure on, as the verdict is, by a factor
 * that needs no search (`quickFactorBySeries`); with fewer taken as independent.
 *
 * With lower bounds a simulated sample is judged by its maximum-likelihood location and scale and the factor of its
 * failures alone, which is a little on the safe side and spares a search in each of many thousands.
 *
 * @param present the ratios of the cell, which stay as they are; one that names no series stands for itself
 * @example testsToSettle(model, present, { wanted: 0.9, seed: 1 }).further
 */
export function testsToSettle(model: RatioModel, present: readonly { readonly ratio: number; readonly bound: boolean; readonly series?: string }[], settings: SettleSettings = {}): TestsToSettle {
  const { fractile = 0.05, confidence = 0.9, wanted = 0.8, perSeries = 3, most = 60, simulations = 300, seed = "tests to settle" } = settings;
  for (const [name, share] of Object.entries({ fractile, confidence, wanted })) if (!(share > 0 && share < 1)) throw new RangeError(`testsToSettle: ${name} is ${share}, expected a share between 0 and 1`);
  if (!(Number.isInteger(perSeries) && perSeries > 0 && most >= perSeries)) throw new RangeError(`testsToSettle: ${perSeries} tests a series and at most ${most}, expected a whole number of tests and no fewer than one series in all`);
  const onLaw = (ratio: number): number => (model.distribution === "lognormal" ? Math.log(ratio) : ratio);
  const target = onLaw(1);
  const trueFractile = model.location + model.scale * normal().quantile(fractile);
  const truth = trueFractile >= target ? "meets" : "falls short";
  const question = { fractile, confidence };
  const own = present.map(({ ratio, bound }) => ({ value: onLaw(ratio), bound }));
  const known = [...new Set(present.map(({ series }, i) => series ?? i))].map((label) => own.filter((_, i) => (present[i]?.series ?? i) === label));
  const random = createRandom(seed);
  const [between, within] = [model.scale * Math.sqrt(model.betweenShare), model.scale * Math.sqrt(1 - model.betweenShare)];
  const steps = Math.floor(most / perSeries);
  const right = new Array<number>(steps + 1).fill(0);
  for (let s = 0; s < simulations; s++) {
    const sample = [...own];
    const sums = known.map(failuresOf);
    for (let k = 0; k <= steps; k++) {
      if (k > 0) {
        const shift = between * random.normal();
        const series: SeriesSums = { count: 0, sum: 0, squares: 0 };
        sums.push(series);
        for (let i = 0; i < perSeries; i++) {
          const value = model.location + shift + within * random.normal();
          const limit = model.limits.length === 0 ? Infinity : limitAbove(model.limits, -Infinity, random.uniform());
          sample.push({ value: Math.min(value, limit), bound: value > limit });
          if (value <= limit) addTo(series, value);
        }
      }
      const lower = characteristic(sample, sums, question);
      if (lower !== null && (lower >= target) === (truth === "meets")) right[k] = (right[k] ?? 0) + 1;
    }
  }
  const curve = right.map((count, k) => ({ further: k * perSeries, probability: count / simulations }));
  // The first size from which the probability stays: a lucky dip of few simulations settles nothing.
  const first = curve.findIndex((_, k) => curve.slice(k).every(({ probability }) => probability >= wanted));
  const at = curve[first < 0 ? curve.length - 1 : first];
  return { truth, fractile: model.distribution === "lognormal" ? Math.exp(trueFractile) : trueFractile, further: first < 0 ? null : (at?.further ?? null), probability: first === 0 ? Math.min(...curve.map((one) => one.probability)) : (at?.probability ?? 0), curve };
}

type Sample = readonly { readonly value: number; readonly bound: boolean }[];

function failuresOf(tests: Sample): SeriesSums {
  const sums: SeriesSums = { count: 0, sum: 0, squares: 0 };
  for (const { value, bound } of tests) if (!bound) addTo(sums, value);
  return sums;
}

/** Location less K scales of a simulated sample; null with fewer than 3 failures, which no verdict rests on. */
function characteristic(sample: Sample, series: readonly SeriesSums[], { fractile, confidence }: { readonly fractile: number; readonly confidence: number }): number | null {
  const failed = sample.filter(({ bound }) => !bound);
  const n = failed.length;
  if (n < 3) return null;
  const layout = oneWayLayout(series);
  const bySeries = layout !== null && layout.series >= FEWEST_SERIES ? layout : null;
  const factor = bySeries ? quickFactorBySeries(bySeries, fractile, confidence) : toleranceFactor({ n, fractile, confidence });
  if (n === sample.length) {
    const mean = failed.reduce((sum, { value }) => sum + value, 0) / n;
    return mean - factor * (bySeries ? layoutSd(bySeries) : Math.sqrt(failed.reduce((sum, { value }) => sum + (value - mean) ** 2, 0) / (n - 1)));
  }
  try {
    const at = maximumOf({ y: Float64Array.from(sample, ({ value }) => value), censored: Uint8Array.from(sample, ({ bound }) => (bound ? 1 : 0)) }, lawOf("normal"));
    return (at.coefficients[0] ?? NaN) - factor * at.sigma * Math.sqrt(n / (n - 1));
  } catch (error) {
    if (error instanceof NoMaximumError) return null;
    throw error;
  }
}
