import { fitCensored, summarize } from "../statistics";
import type { Comparison, Evidence } from "./compare";
import { characteristicOfSeries, characteristicOfTests, type BySeries } from "./group-characteristic";
import { keyReader } from "./group-keys";
import { labelWords } from "./labels";
import { onePerTest } from "./one-per-test";
import { verdictOf, type Verdict } from "./verdict";

/** How groups are evaluated. */
export interface GroupSettings {
  /** Default 0.05. */
  readonly fractile?: number;
  /** Default 0.90. */
  readonly confidence?: number;
  readonly distribution?: "normal" | "lognormal";
  /** The characteristic ratio that meets the code; default 1. */
  readonly target?: number;
  /**
   * What the verdict rests on. `series` (default): tests of one series share concrete, hole and day, and are counted by
   * series where at least 3 failed in the mode; with fewer the tests are taken as independent, and the reason says so.
   * `tests`: taken as independent throughout.
   */
  readonly basis?: "series" | "tests";
}

/** One group of ratios with its numbers; null where the group cannot tell it. */
export interface RatioGroup {
  readonly by: Readonly<Record<string, string | number | null>>;
  readonly label: string;
  readonly evidence: readonly Evidence[];
  /** Tests that failed in the mode. */
  readonly n: number;
  /** Tests that are lower bounds only. */
  readonly nCensored: number;
  /** Mean, SD and COV: of the values alone, or with the bounds by maximum likelihood when there are any. */
  readonly mean: number | null;
  readonly sd: number | null;
  readonly cov: number | null;
  readonly min: number | null;
  readonly meanMinus3Sd: number | null;
  /** Tolerance factor of tests taken as independent; null when bounds enter, which have no single factor. */
  readonly k: number | null;
  /** The characteristic ratio that the verdict rests on. */
  readonly characteristic: number | null;
  /** Whether that is counted by series, or the tests are taken as independent. */
  readonly basis: "series" | "tests";
  /** The characteristic ratio with the tests taken as independent: mean − K SD without lower bounds. */
  readonly characteristicOfTests: number | null;
  /** Series with a test in the group, and with one that failed in the mode. */
  readonly series: number;
  readonly seriesFailed: number;
  /** What the tests tell counted by series; null where they cannot. */
  readonly bySeries: BySeries | null;
  /** Share of the values below 1. */
  readonly shareBelow1: number | null;
  readonly verdict: Verdict;
  readonly reason: string;
}

/**
 * Groups the ratios of a comparison by columns of the tests. `mode` is the mode of the provision judged, `failure_mode` the mode
 * observed in the test, `provision` the provision's id; every other name is a column of the tests. Without `mode` a test counts once
 * (`onePerTest`). Groups come in order of first appearance of sorted keys.
 * @param known groups by label, made with the same settings: one with the very same evidence is not evaluated again
 * @example groupRatios(comparison, ["mode", "bar_material", "bar_size"])
 */
export function groupRatios(comparison: Comparison, by: readonly string[], settings: GroupSettings = {}, known: ReadonlyMap<string, RatioGroup> = new Map()): RatioGroup[] {
  const keyOf = keyReader(comparison, by);
  const groups = new Map<string, Evidence[]>();
  const series = comparison.tests.texts("series_id");
  for (const one of by.includes("mode") ? comparison.evidence : onePerTest(comparison)) {
    const key = JSON.stringify(keyOf(one));
    const members = groups.get(key);
    if (members) members.push(one);
    else groups.set(key, [one]);
  }
  return [...groups]
    .map(([key, members]) => ({ keys: JSON.parse(key) as (string | number | null)[], members }))
    .sort((a, b) => compareKeys(a.keys, b.keys))
    .map(({ keys, members }) => {
      const named = Object.fromEntries(by.map((name, k) => [name, keys[k] ?? null]));
      const same = known.get(labelOf(named));
      return same && equalEvidence(same.evidence, members) ? same : evaluateGroup(named, members, hiddenReplicates(comparison, members), settings, series);
    });
}

function labelOf(by: RatioGroup["by"]): string {
  return Object.entries(by).map(([column, value]) => labelWords(column, value)).join(", ");
}

function equalEvidence(a: readonly Evidence[], b: readonly Evidence[]): boolean {
  return a.length === b.length && a.every((one, k) => one.row === b[k]?.row && one.column === b[k].column && one.bound === b[k].bound && Object.is(one.ratio, b[k].ratio));
}

function compareKeys(a: readonly (string | number | null)[], b: readonly (string | number | null)[]): number {
  for (let k = 0; k < a.length; k++) {
    const [x, y] = [a[k] ?? null, b[k] ?? null];
    if (x === y) continue;
    const [p, q] = [Number(x), Number(y)];
    if (x !== null && y !== null && !Number.isNaN(p) && !Number.isNaN(q)) return p - q;
    return String(x) < String(y) ? -1 : 1;
  }
  return 0;
}

function hiddenReplicates(comparison: Comparison, members: readonly Evidence[]): number {
  const replicates = comparison.tests.numbers("replicates");
  return members.filter(({ row }) => (replicates[row] ?? 1) > 1).length;
}

function evaluateGroup(by: RatioGroup["by"], evidence: readonly Evidence[], meansOfReplicates: number, settings: GroupSettings, seriesIds: readonly (string | null)[]): RatioGroup {
  const { fractile = 0.05, confidence = 0.9, distribution = "normal", target = 1 } = settings;
  const question = { fractile, confidence, distribution };
  const values = evidence.filter(({ bound }) => !bound).map(({ ratio }) => ratio);
  const nCensored = evidence.length - values.length;
  const plain = summarize(values);
  const moments = nCensored === 0 ? plain : (momentsWithBounds(evidence, distribution) ?? plain);
  const ofTests = characteristicOfTests(evidence, question);
  const series = evidence.map(({ row }) => seriesIds[row] ?? "");
  const counted = settings.basis === "tests" || ofTests.characteristic === null ? "" : series.includes("") ? "a test names no series" : characteristicOfSeries(evidence, series, question);
  const [bySeries, refusal] = typeof counted === "string" ? [null, counted] : [counted, ""];
  const characteristic = bySeries?.characteristic ?? ofTests.characteristic;
  const { verdict, reason } = verdictOf({
    n: values.length, nCensored, characteristic, target, refusal: ofTests.refusal, meansOfReplicates, fractile, confidence,
    ofTests: ofTests.characteristic, counted: bySeries ? `counted by ${bySeries.seriesFailed} series` : `tests taken as independent${refusal === "" ? "" : `: ${refusal}`}`,
  });
  return {
    by, evidence, n: values.length, nCensored, k: ofTests.k, characteristic, verdict, reason,
    basis: bySeries ? "series" : "tests", characteristicOfTests: ofTests.characteristic, bySeries,
    series: new Set(series).size, seriesFailed: new Set(series.filter((_, i) => !evidence[i]?.bound)).size,
    label: labelOf(by),
    mean: moments.mean, sd: moments.sd, cov: moments.cov, min: plain.min,
    meanMinus3Sd: moments.mean === null || moments.sd === null ? null : moments.mean - 3 * moments.sd,
    shareBelow1: values.length === 0 ? null : values.filter((ratio) => ratio < 1).length / values.length,
  };
}

function momentsWithBounds(evidence: readonly Evidence[], distribution: "normal" | "lognormal"): { mean: number; sd: number; cov: number } | null {
  const fit = fitCensored({ values: evidence.map(({ ratio }) => ratio), censored: evidence.map(({ bound }) => bound), distribution });
  return fit.status === "ok" ? { mean: fit.mean, sd: fit.sd, cov: fit.cov } : null;
}
