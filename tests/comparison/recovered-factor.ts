import type { Evidence, RatioGroup } from "../../kernel-lib/src/comparison";
import { characteristicOfSeries } from "../../kernel-lib/src/comparison/group-characteristic";
import { TRUTH } from "../../kernel-lib/src/demonstration";
import { characteristicFactor } from "../../kernel-lib/src/proposals";
import { characteristicCensored, characteristicValue, normal } from "../../kernel-lib/src/statistics";
import type { StudiedGroup, StudiedMode, StudiedRatio } from "./recovered-bias";

export interface RecoveredFactor { readonly mode: StudiedMode; readonly factor: number; /** The true 5 % fractile of the ratio of a further test: by any laboratory, and by one of those that tested. */ readonly any: number; readonly these: number; readonly n: number; readonly series: number }

/** Whether the lower bound takes the tests as independent, or counts them by series. */
export type FactorWay = "tests" | "series";

const QUESTION = { fractile: 0.05, confidence: 0.9, distribution: "lognormal" } as const;

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
 * The characteristic factor of each group as the study derives it (log-normal), tests taken as independent or counted by
 * series, beside the fractiles it must not exceed.
 */
export function recoveredFactors(groups: readonly StudiedGroup[], by: FactorWay): RecoveredFactor[] {
  return groups.flatMap((group) => {
    const { ratios, mode } = group;
    const evidence = ratios.map(({ value, bound }, row): Evidence => ({ row, column: 0, mode, load: value, capacity: 1, ratio: value, bound }));
    const n = ratios.filter(({ bound }) => !bound).length;
    const counted = by === "series" ? characteristicOfSeries(evidence, ratios.map(({ series }) => series), QUESTION) : null;
    const bySeries = typeof counted === "string" ? null : counted;
    const ofTests = by === "tests" ? independent(ratios) : null;
    const empty = { mean: null, sd: null, cov: null, min: null, meanMinus3Sd: null, k: null, shareBelow1: null, verdict: "too few tests", reason: "too few tests" } as const;
    const asGroup: RatioGroup = { ...empty, label: mode, by: {}, evidence, n, nCensored: ratios.length - n, series: 0, seriesFailed: 0, basis: by, characteristic: bySeries?.characteristic ?? ofTests, characteristicOfTests: ofTests, bySeries };
    const derived = characteristicFactor(asGroup, (row) => ratios[row]!, { distribution: "lognormal", basis: by, resamples: 100 });
    return derived.exact === null ? [] : [{ mode, factor: derived.exact, ...trueFractiles(group), n, series: derived.series }];
  });
}

function independent(ratios: readonly StudiedRatio[]): number | null {
  const values = ratios.map(({ value }) => value);
  const censored = ratios.map(({ bound }) => bound);
  if (!censored.includes(true)) {
    const found = characteristicValue(values, QUESTION);
    return found.status === "ok" ? found.value : null;
  }
  // Fewer resamples than the comparison makes: a bench looks at thousands of groups.
  const found = characteristicCensored({ ...QUESTION, values, censored, resamples: 400, seed: "ratio group" });
  return found.status === "ok" ? found.characteristic : null;
}
