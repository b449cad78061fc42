import type { Evidence, RatioGroup } from "../../kernel-lib/src/comparison";
import { TRUTH } from "../../kernel-lib/src/demonstration";
import { characteristicFactor } from "../../kernel-lib/src/proposals";
import { characteristicCensored, characteristicValue, fitCensored, normal, studentT } from "../../kernel-lib/src/statistics";
import type { StudiedGroup, StudiedMode, StudiedRatio } from "./recovered-bias";

export interface RecoveredFactor { readonly mode: StudiedMode; readonly factor: number; /** The true 5 % fractile of the ratio of a further test: by any laboratory, and by one of those that tested. */ readonly any: number; readonly these: number; readonly n: number; readonly series: number }

/** Whether the lower bound takes the tests as independent, or leaves each series out in turn. */
export type FactorWay = "tests" | "series";

const CONFIDENCE = 0.9;

/**
 * ln(ratio) of a further test is normal: the scatter within a series and between series, both drawn with a mean of 1, and
 * the laboratory's factor: any laboratory's, or that of one of the two that tested (f and 1/f alike often).
 */
function trueFractiles({ mode, truth, laboratory }: StudiedGroup): { any: number; these: number } {
  const [within, between, study] = [TRUTH.withinSeriesCov[mode], TRUTH.betweenSeriesCov, TRUTH.studyCov].map((cov) => Math.log1p(cov * cov)) as [number, number, number];
  const law = normal();
  const [centre, sd] = [Math.log(truth) - (within + between) / 2, Math.sqrt(within + between)];
  // ½ Φ((q − a)/s) + ½ Φ((q + a)/s) = 0.05 by halving.
  let [low, high] = [-10 * sd, 0];
  for (let k = 0; k < 60; k++) {
    const q = (low + high) / 2;
    if (0.5 * (law.cdf((q - laboratory) / sd) + law.cdf((q + laboratory) / sd)) < 0.05) low = q;
    else high = q;
  }
  return { any: Math.exp(centre + law.quantile(0.05) * Math.sqrt(within + between + study)), these: Math.exp(centre + low) };
}

/**
 * The characteristic factor of each group as the study derives it (log-normal; tests independent), or by the jackknife
 * over series, beside the fractiles it must not exceed.
 */
export function recoveredFactors(groups: readonly StudiedGroup[], by: FactorWay): RecoveredFactor[] {
  return groups.flatMap((group) => {
    const { ratios, mode } = group;
    const evidence = ratios.map(({ value, bound }, row): Evidence => ({ row, column: 0, mode, load: value, capacity: 1, ratio: value, bound }));
    const n = ratios.filter(({ bound }) => !bound).length;
    const empty = { mean: null, sd: null, cov: null, min: null, meanMinus3Sd: null, k: null, shareBelow1: null, verdict: "too few tests", reason: "too few tests" } as const;
    const asGroup: RatioGroup = { ...empty, label: mode, by: {}, evidence, n, nCensored: ratios.length - n, characteristic: characteristicOf(ratios, by) };
    const derived = characteristicFactor(asGroup, (row) => ratios[row]!, { distribution: "lognormal", resamples: 100 });
    return derived.exact === null ? [] : [{ mode, factor: derived.exact, ...trueFractiles(group), n, series: derived.series }];
  });
}

function characteristicOf(ratios: readonly StudiedRatio[], by: FactorWay): number | null {
  if (by === "series") return byJackknife(ratios);
  const question = { fractile: 0.05, confidence: CONFIDENCE, distribution: "lognormal" } as const;
  const values = ratios.map(({ value }) => value);
  const censored = ratios.map(({ bound }) => bound);
  if (!censored.includes(true)) {
    const found = characteristicValue(values, question);
    return found.status === "ok" ? found.value : null;
  }
  const found = characteristicCensored({ ...question, values, censored, resamples: 400, seed: "ratio group" });
  return found.status === "ok" ? found.characteristic : null;
}

/** Lower bound of ln(5 % fractile) by the jackknife over whole series: t on series − 1. */
function byJackknife(ratios: readonly StudiedRatio[]): number | null {
  const series = [...new Set(ratios.map((one) => one.series))];
  const fractile = (sample: readonly StudiedRatio[]): number => {
    const fit = fitCensored({ values: sample.map(({ value }) => value), censored: sample.map(({ bound }) => bound), distribution: "lognormal" });
    return fit.status === "ok" ? fit.location + fit.scale * normal().quantile(0.05) : NaN;
  };
  const m = series.length;
  const whole = fractile(ratios);
  const without = series.map((left) => fractile(ratios.filter((one) => one.series !== left)));
  const mean = without.reduce((sum, one) => sum + one, 0) / m;
  const error = Math.sqrt(((m - 1) / m) * without.reduce((sum, one) => sum + (one - mean) ** 2, 0));
  const lower = m * whole - (m - 1) * mean - studentT(m - 1).quantile(CONFIDENCE) * error;
  return Number.isFinite(lower) ? Math.exp(lower) : null;
}
