import { bootstrapRows } from "../statistics";
import { NoMaximumError } from "../statistics/censoring/censored-likelihood";
import { maximumOf } from "../statistics/censoring/censored-maximum";
import { lawOf } from "../statistics/censoring/location-scale-law";
import type { EvidenceTest, FactorChoices } from "./evidence/characteristic-of-tests";

/**
 * Bootstrap interval (95 %, percentile) of a characteristic ratio, resampling whole series.
 *
 * The number of scales by which the characteristic ratio lies below the location of all tests is kept, as K is kept for
 * a given number of tests; location and scale are found anew in each resample, with lower bounds by maximum likelihood.
 *
 * @param exact the characteristic ratio of all tests
 * @returns null where there is no such interval: fewer than two series with a failure, more than a tenth of the resamples without a value, or
 *   resamples that are all equal, which say nothing of the uncertainty
 */
export function seriesInterval(tests: readonly Pick<EvidenceTest, "ratio" | "bound">[], series: readonly string[], exact: number, distribution: FactorChoices["distribution"], settings: { readonly resamples?: number; readonly seed?: number | string }): { readonly lower: number; readonly upper: number } | null {
  if (new Set(series.filter((_, i) => !tests[i]?.bound)).size < 2) return null;
  const result = bootstrapRows(tests.length, keptScales(tests, exact, distribution), { seed: settings.seed ?? "characteristic factor", resamples: settings.resamples ?? 999, method: "percentile", clusters: series });
  if (result.failedResamples > 0.1 * result.resamples || !(result.upper > result.lower)) return null;
  return Number.isFinite(result.lower) && Number.isFinite(result.upper) ? { lower: result.lower, upper: result.upper } : null;
}

type Statistic = (rows: ArrayLike<number>) => number;

function keptScales(tests: readonly Pick<EvidenceTest, "ratio" | "bound">[], exact: number, distribution: FactorChoices["distribution"]): Statistic {
  const law = lawOf(distribution);
  const y = tests.map(({ ratio }) => (law.onLogs ? Math.log(ratio) : ratio));
  const fit = (rows: ArrayLike<number>): { location: number; scale: number } | null => {
    const sample = { y: Float64Array.from(rows, (row) => y[row] ?? NaN), censored: Uint8Array.from(rows, (row) => (tests[row]?.bound ? 1 : 0)) };
    // Two different failures are the least that has a scatter.
    if (new Set(sample.y.filter((_, i) => sample.censored[i] === 0)).size < 2) return null;
    try {
      const at = maximumOf(sample, law);
      return { location: at.coefficients[0] ?? NaN, scale: at.sigma };
    } catch (error) {
      if (error instanceof NoMaximumError) return null;
      throw error;
    }
  };
  const whole = fit(Array.from(y, (_, i) => i));
  const scales = whole ? (whole.location - (law.onLogs ? Math.log(exact) : exact)) / whole.scale : NaN;
  return (rows) => {
    const at = fit(rows);
    const value = at ? at.location - scales * at.scale : NaN;
    return law.onLogs ? Math.exp(value) : value;
  };
}
