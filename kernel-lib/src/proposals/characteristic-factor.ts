import { capitalised, type RatioGroup } from "../comparison";
import { shareText } from "../statistics";
import { characteristicOfTests, USUAL_CHOICES, type FactorChoices } from "./evidence/characteristic-of-tests";
import { roundToSafeSide } from "./rounding";
import { seriesInterval } from "./series-interval";

/** A factor derived from one group of ratios. */
export interface DerivedFactor {
  readonly label: string;
  readonly status: "derived" | "not derived";
  /** The characteristic ratio itself, counted by series unless told otherwise: with this factor that of test/(factor x predicted) is 1. */
  readonly exact: number | null;
  /** What it rests on. */
  readonly basis: "series" | "tests";
  /** The same with tests taken as independent: the researcher's own step, beside the one that a proposal rests on. */
  readonly exactOfTests: number | null;
  /** Intraclass correlation, and the independent tests that the tests are worth for the mean; null where not counted by series. */
  readonly correlation: number | null;
  readonly effectiveTests: number | null;
  /** Rounded to the safe side, not above 1. */
  readonly rounded: number | null;
  /** Bootstrap interval of the exact factor, by whole series, lower bounds counted as such; null with fewer than 5 series. */
  readonly lower: number | null;
  readonly upper: number | null;
  readonly n: number;
  readonly nCensored: number;
  /** Series, and those in which a test failed in the mode. */
  readonly series: number;
  readonly seriesFailed: number;
  readonly studies: number;
  /** The factor from the tests without one study, lower bounds counted as such, for each study (not for a single study). */
  readonly withoutStudy: readonly { readonly study: string; readonly factor: number | null }[];
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
  readonly reading: string;
}

export interface FactorSettings {
  readonly fractile?: number;
  readonly confidence?: number;
  readonly distribution?: "normal" | "lognormal";
  /** `series` (default): counted by series, and nothing derived with fewer than 3. `tests`: taken as independent. */
  readonly basis?: "series" | "tests";
  readonly step?: number;
  readonly resamples?: number;
  readonly seed?: number | string;
}

/** What the derivation must know of a test beside its ratio. */
export interface Origin {
  readonly series: string;
  readonly study: string;
}

/**
 * Factor on a capacity by the characteristic ratio: the lower characteristic value (5 % fractile at 90 % confidence)
 * of test/predicted, rounded to the safe side and never above 1.
 *
 * It is counted by series (`characteristicBySeries`), since tests of one share their concrete, hole and day: taken as independent
 * they held the true fractile in 74 to 83 % of simulated campaigns where 90 % was stated. Nothing is derived where the
 * group has no characteristic value, or fewer than 3 series failed in the mode; the reason is given instead. The
 * interval resamples whole series.
 */
export function characteristicFactor(group: RatioGroup, originOf: (row: number) => Origin, settings: FactorSettings = {}): DerivedFactor {
  const basis = settings.basis ?? "series";
  const origins = group.evidence.map(({ row }) => originOf(row));
  const tests = group.evidence.map(({ ratio, bound }, k) => ({ ratio, bound, series: origins[k]?.series ?? "" }));
  const series = new Set(origins.map((origin) => origin.series)).size;
  const seriesFailed = new Set(tests.filter(({ bound }) => !bound).map((one) => one.series)).size;
  const studies = [...new Set(origins.map((origin) => origin.study))].sort();
  const choices: FactorChoices = { ...USUAL_CHOICES, basis, distribution: settings.distribution ?? "normal", fractile: settings.fractile ?? 0.05, confidence: settings.confidence ?? 0.9 };
  const bySeries = basis === "series" ? group.bySeries : null;
  const exactOfTests = group.characteristicOfTests;
  const base = { label: group.label, basis, exactOfTests, correlation: bySeries?.correlation ?? null, effectiveTests: bySeries?.effectiveTests ?? null, n: group.n, nCensored: group.nCensored, series, seriesFailed, studies: studies.length, assumptions: assumptionsOf(choices) };
  const exact = basis === "series" ? (bySeries?.characteristic ?? null) : exactOfTests;
  if (exact === null) {
    return { ...base, status: "not derived", exact: null, rounded: null, lower: null, upper: null, withoutStudy: [], warnings: [], reading: `${capitalised(group.label)}: no factor is proposed, ${refusalOf(group, seriesFailed)}.` };
  }
  const rounded = Math.max(0, Math.min(1, roundToSafeSide(exact, settings.step)));
  const interval = series >= 5 ? seriesInterval(tests, tests.map((one) => one.series), exact, choices.distribution, settings) : null;
  const withoutStudy = studies.length < 2 ? [] : studies.map((study) => ({ study, factor: characteristicOfTests(tests.filter((_, k) => origins[k]?.study !== study), choices).factor }));
  const warnings = [
    ...(studies.length < 2 ? ["all tests come from one study: another laboratory may differ"] : []),
    ...(seriesFailed < 5 ? [`only ${seriesFailed} series: the scatter between series is hardly known`] : []),
    ...(bySeries?.correlation === 1 ? ["the tests of a series are all but equal and count as one: look whether one result stands in the data several times"] : []),
    ...(group.nCensored > 0 ? [`${group.nCensored} of ${group.n + group.nCensored} tests are lower bounds, counted as such`] : []),
    ...withoutStudy.filter(({ factor }) => factor !== null && Math.min(1, factor) < rounded - 1e-12).map(({ study, factor }) => `without ${study} the factor would be ${(factor ?? 0).toFixed(3)}, below the rounded one`),
    ...withoutStudy.filter(({ factor }) => factor === null).map(({ study }) => `without ${study} too little is left to derive a factor`),
  ];
  const range = interval ? ` (bootstrap by series, 95 %: ${interval.lower.toFixed(2)} to ${interval.upper.toFixed(2)})` : "";
  const counted = bySeries ? `${group.n} tests in ${series} series, intraclass correlation ${shareText(bySeries.correlation)}; taken as independent they would give ${exactOfTests?.toFixed(3) ?? "no factor"}` : `${group.n} tests in ${series} series, taken as independent`;
  return {
    ...base, status: "derived", exact, rounded, lower: interval?.lower ?? null, upper: interval?.upper ?? null, withoutStudy, warnings,
    reading: `${capitalised(group.label)}: a factor of ${exact.toFixed(3)}${range} brings the characteristic ratio to 1; rounded to the safe side and not above 1: ${rounded.toFixed(2)} (${counted}).`,
  };
}

function assumptionsOf({ distribution, basis }: FactorChoices): string[] {
  return [
    `test-to-predicted ratios of the group follow a ${distribution} distribution`,
    "the tests are a fair sample of the bars, adhesives and concretes the factor is meant for",
    basis === "series"
      ? "series are independent and scatter alike; laboratories are not told apart from series, so that two say little of a third (of 90 % stated, 88 to 93 % held for any laboratory and 92 to 93 % for those that tested, in 200 simulated campaigns of two)"
      : "the tests are independent of each other; those of one series share concrete, hole and day, so that the confidence held is less than the one stated (74 to 83 % for 90 % in simulated campaigns of two laboratories)",
  ];
}

function refusalOf(group: RatioGroup, seriesFailed: number): string {
  if (group.characteristicOfTests === null) return group.reason;
  const few = seriesFailed < 3 ? `only ${seriesFailed} series failed in the mode, and at least 3 are needed to tell how much series differ` : "the ratios were not counted by series";
  return `${few} (taken as independent, the tests would give ${group.characteristicOfTests.toFixed(3)})`;
}
