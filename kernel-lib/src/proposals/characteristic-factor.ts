import type { RatioGroup } from "../comparison";
import { characteristicOfTests, USUAL_CHOICES, type FactorChoices } from "./evidence/characteristic-of-tests";
import { roundToSafeSide } from "./rounding";
import { seriesInterval } from "./series-interval";

/** A factor derived from one group of ratios. */
export interface DerivedFactor {
  readonly label: string;
  readonly status: "derived" | "not derived";
  /** The characteristic ratio itself: with this factor the characteristic value of test/(factor x predicted) is 1. */
  readonly exact: number | null;
  /** Rounded to the safe side, not above 1. */
  readonly rounded: number | null;
  /** Bootstrap interval of the exact factor, by whole series, lower bounds counted as such; null with fewer than 5 series. */
  readonly lower: number | null;
  readonly upper: number | null;
  readonly n: number;
  readonly nCensored: number;
  readonly series: number;
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
 * Nothing is derived where the group has no characteristic value; the reason is given instead. The interval resamples
 * whole series, since tests of one series share their concrete, hole and day.
 */
export function characteristicFactor(group: RatioGroup, originOf: (row: number) => Origin, settings: FactorSettings = {}): DerivedFactor {
  const origins = group.evidence.map(({ row }) => originOf(row));
  const series = new Set(origins.map((origin) => origin.series)).size;
  const studies = [...new Set(origins.map((origin) => origin.study))].sort();
  const base = { label: group.label, n: group.n, nCensored: group.nCensored, series, studies: studies.length };
  const assumptions = [
    `test-to-predicted ratios of the group follow a ${settings.distribution ?? "normal"} distribution`,
    "the tests are a fair sample of the bars, adhesives and concretes the factor is meant for",
    "the tests are independent of each other; those of one series share concrete, hole and day, so that the confidence held is less than the one stated (74 to 85 % for 90 % in simulated campaigns of two laboratories)",
  ];
  if (group.characteristic === null) {
    return { ...base, status: "not derived", exact: null, rounded: null, lower: null, upper: null, withoutStudy: [], assumptions, warnings: [], reading: `${group.label}: no factor is proposed, ${group.reason}.` };
  }
  const exact = group.characteristic;
  const rounded = Math.max(0, Math.min(1, roundToSafeSide(exact, settings.step)));
  const choices: FactorChoices = { ...USUAL_CHOICES, distribution: settings.distribution ?? "normal", fractile: settings.fractile ?? 0.05, confidence: settings.confidence ?? 0.9 };
  const interval = series >= 5 ? seriesInterval(group.evidence, origins.map((origin) => origin.series), exact, choices, settings) : null;
  const withoutStudy = studies.length < 2 ? [] : studies.map((study) => ({ study, factor: characteristicOfTests(group.evidence.filter((_, k) => origins[k]?.study !== study), choices).factor }));
  const warnings = [
    ...(studies.length < 2 ? ["all tests come from one study: another laboratory may differ"] : []),
    ...(series < 5 ? [`only ${series} series: the scatter between series is hardly known`] : []),
    ...(group.nCensored > 0 ? [`${group.nCensored} of ${group.n + group.nCensored} tests are lower bounds, counted as such`] : []),
    ...withoutStudy.filter(({ factor }) => factor !== null && Math.min(1, factor) < rounded - 1e-12).map(({ study, factor }) => `without ${study} the factor would be ${(factor ?? 0).toFixed(3)}, below the rounded one`),
  ];
  const range = interval ? ` (bootstrap by series, 95 %: ${interval.lower.toFixed(2)} to ${interval.upper.toFixed(2)})` : "";
  return {
    ...base, status: "derived", exact, rounded, lower: interval?.lower ?? null, upper: interval?.upper ?? null, withoutStudy, assumptions, warnings,
    reading: `${group.label}: a factor of ${exact.toFixed(3)}${range} brings the characteristic ratio to 1; rounded to the safe side and not above 1: ${rounded.toFixed(2)} (${group.n} tests in ${series} series).`,
  };
}
