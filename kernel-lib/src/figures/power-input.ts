import {
  labelWords,
  powerOfDifference,
  valueWords,
  type ModeComparison,
  type SeriesComparison,
} from "../comparison";
import { powerOfTTest } from "../statistics";
import type { Curve } from "./line-figure";

/** Curves of at most this many comparisons are drawn; of more, the best, the middle and the worst. */
const MOST = 6;
const REDUCTIONS = Array.from({ length: 40 }, (_, i) => (i + 1) / 100);
const COUNTS = [3, 4, 5, 6, 8, 10, 12, 15, 20];

/**
 * Power of comparisons of ratios against the true reduction of the median, %, from the standard
 * error of each: all of up to six comparisons, else the most precise, the middle and the least
 * precise one.
 */
export function modePowerCurves(
  lines: readonly ModeComparison[],
  confidence: number = 0.95,
): Curve[] {
  const known = lines.flatMap((one) =>
    one.standardError === null || one.degreesOfFreedom === null
      ? []
      : [
          {
            one,
            found: { standardError: one.standardError, degreesOfFreedom: one.degreesOfFreedom },
          },
        ],
  );
  const sorted = [...known].sort((a, b) => (a.one.detectable ?? 1) - (b.one.detectable ?? 1));
  const chosen =
    sorted.length <= MOST
      ? known
      : [sorted[0]!, sorted[Math.floor((sorted.length - 1) / 2)]!, sorted[sorted.length - 1]!];
  return chosen.map(({ one, found }) => ({
    label: [
      ...Object.entries(one.within).map(([column, value]) => labelWords(column, value)),
      valueWords(one.other),
    ].join(", "),
    x: REDUCTIONS.map((share) => 100 * share),
    y: REDUCTIONS.map((share) => powerOfDifference(found, 1 - share, confidence)),
  }));
}

/**
 * Power of Welch's test against the number of tests in each of two groups, one curve a true
 * reduction of the mean, at the median COV of the reference groups; `cov` is NaN and there are no
 * curves where no reference group scatters.
 */
export function seriesPowerCurves(
  lines: readonly SeriesComparison[],
  level: number = 0.05,
): { readonly cov: number; readonly curves: readonly Curve[] } {
  const covs = lines
    .map((one) => one.sdReference / one.meanReference)
    .filter((cov) => cov > 0)
    .sort((a, b) => a - b);
  const cov = covs[Math.floor(covs.length / 2)] ?? NaN;
  if (Number.isNaN(cov)) return { cov, curves: [] };
  const curves = [0.1, 0.15, 0.2, 0.3].map((difference) => ({
    label: `${100 * difference} % lower`,
    x: COUNTS,
    y: COUNTS.map((n) =>
      powerOfTTest({ nA: n, nB: n, difference, sdA: cov, sdB: cov * (1 - difference), level }),
    ),
  }));
  return { cov, curves };
}
