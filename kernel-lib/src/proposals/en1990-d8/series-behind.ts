import { characteristicBySeries, FEWEST_SERIES, shareText } from "../../statistics";
import { resistancesOf, type ResistanceQuestion } from "./resistances";

/**
 * How many series stand behind the tests of a calibration, and what reading the tables with the
 * effective number of tests would give.
 */
export interface SeriesBehind {
  /** Series with at least one failure in the mode. */
  readonly series: number;
  /**
   * Intraclass correlation of ln(r_e / r_t): the share of its variance between series; null with
   * fewer than 3 series.
   */
  readonly correlation: number | null;
  /** Σ n_i/(1 + (n_i − 1) ρ), not above the number of tests; null as above. */
  readonly effectiveTests: number | null;
  /** The whole number of tests k_n and k_d,n are then read with. */
  readonly count: number | null;
  /** r_k / r_n and r_d / r_n with that number; null where the tables have no entry for it. */
  readonly characteristicFactor: number | null;
  readonly designFactor: number | null;
}

/** The tests of a calibration with the series of each. */
export interface TestsInSeries {
  /** r_e / r_t of the tests that b and V_δ rest on. */
  readonly ratios: readonly number[];
  readonly lowerBounds: readonly boolean[];
  readonly series: readonly string[];
  readonly resistances: ResistanceQuestion;
  /** r_n / g_rt(X_m). */
  readonly nominal: number;
}

/**
 * What EN 1990 Annex D.8 leaves out: tests of one series share an error, so that n of them say less
 * than n independent ones. b and V_δ stay; k_n and k_d,n are read with the effective number of
 * tests instead, rounded down.
 *
 * An indication beside the annex, not a step of it: the effective number is that of the mean at the
 * estimated correlation, and with it 82 to 94 % of simulated lower bounds held where 90 % was
 * stated (58 to 91 % with the series effect ignored).
 * @example seriesBehind({ ratios, lowerBounds: bounds, series, resistances, nominal: 1 }).designFactor
 */
export function seriesBehind({
  ratios,
  lowerBounds,
  series,
  resistances,
  nominal,
}: TestsInSeries): SeriesBehind {
  const failed = new Set(series.filter((_, i) => !lowerBounds[i])).size;
  const unknown: SeriesBehind = {
    series: failed,
    correlation: null,
    effectiveTests: null,
    count: null,
    characteristicFactor: null,
    designFactor: null,
  };
  const found = characteristicBySeries({
    values: ratios,
    censored: lowerBounds,
    clusters: series,
    distribution: "lognormal",
  });
  if (found.status !== "ok") return unknown;
  const effectiveTests = Math.min(found.failures, found.effectiveTests);
  // A sub-set that reads the tables with the number of all tests does so with the same share of it.
  const count = Math.floor(
    ((resistances.factorCount ?? resistances.n) * effectiveTests) / found.failures + 1e-9,
  );
  const { characteristic, design } = resistancesOf({
    ...resistances,
    factorCount: Math.max(1, count),
  });
  const over = (value: number | null): number | null => (value === null ? null : value / nominal);
  return {
    series: failed,
    correlation: found.correlation,
    effectiveTests,
    count,
    characteristicFactor: over(characteristic),
    designFactor: over(design),
  };
}

/** The assumption of independent tests in words, with what is known of their series. */
export function independenceWords(behind: SeriesBehind | null, n: number): string {
  const taken = `the ${n} tests are independent of each other, as Annex D assumes`;
  if (behind === null) return `${taken}; their series were not given`;
  const { series, correlation, effectiveTests, count, characteristicFactor, designFactor } = behind;
  if (correlation === null || effectiveTests === null)
    return `${taken}; they come from ${series} series, and between-series variance cannot be estimated with fewer than ${FEWEST_SERIES} series that failed in the mode`;
  return `${taken}; they come from ${series} series with an intraclass correlation of ${shareText(correlation)} and an effective sample size of ${effectiveTests.toFixed(1)} for the mean: with ${count} tests, r_k / r_n would be ${told(characteristicFactor)} and r_d / r_n ${told(designFactor)}`;
}

/**
 * A warning where a factor would move by more than the rounding step, or where that cannot be
 * known.
 */
export function seriesWarnings(
  behind: SeriesBehind | null,
  found: Pick<SeriesBehind, "characteristicFactor" | "designFactor">,
  step: number,
): string[] {
  if (behind === null) return [];
  const { series, correlation, count } = behind;
  if (correlation === null)
    return [
      `the tests come from ${series} series only: Annex D ignores the series effect, and its influence on the factors cannot be estimated`,
    ];
  const moved = (
    [
      ["r_k / r_n", "characteristicFactor"],
      ["r_d / r_n", "designFactor"],
    ] as const
  ).flatMap(([name, key]) => {
    const [ours, theirs] = [behind[key], found[key]];
    if (theirs === null || (ours !== null && Math.abs(theirs - ours) <= step)) return [];
    return [`${name} ${told(theirs)} would be ${told(ours)}`];
  });
  return moved.length === 0
    ? []
    : [
        `tests of one series are correlated: with the effective sample size of ${count}, ${moved.join(" and ")}`,
      ];
}

const told = (value: number | null): string => (value === null ? "not told" : value.toFixed(3));
