import { noncentralT } from "../distributions/noncentral-t";
import { studentT } from "../distributions/student-t";
import { welchPower } from "./welch-power";

/**
 * Scatter within the populations: one SD for both (equal-variance t-test), or one each (Welch's
 * test).
 */
export type ScatterWithin =
  { readonly sd: number } | { readonly sdA: number; readonly sdB: number };

/** What the power of a two-sample, two-sided t-test depends on. */
export type PowerQuestion = ScatterWithin & {
  readonly nA: number;
  readonly nB: number;
  /** True difference of the means. */
  readonly difference: number;
  /** Significance level, default 0.05. */
  readonly level?: number;
};

/**
 * Power of the two-sided two-sample t-test, both rejection tails counted.
 *
 * With one SD: P(|T′| > t_crit), T′ noncentral t with ν = n_A + n_B − 2 and δ = Δ/(σ √(1/n_A +
 * 1/n_B)). With an SD for each population: Welch's test, see `welchPower`.
 * @throws RangeError for samples of fewer than 2 or SDs that are not positive
 * @example powerOfTTest({ nA: 20, nB: 20, difference: 1, sd: 1 }) // 0.8690
 * @example powerOfTTest({ nA: 4, nB: 10, difference: 2.5, sdA: 2, sdB: 1 }) // 0.4397
 */
export function powerOfTTest(question: PowerQuestion): number {
  return powerFunction(
    question.nA,
    question.nB,
    question,
    question.level ?? 0.05,
  )(question.difference);
}

/**
 * Tests needed in each of two equal samples to show a true difference with the wanted power.
 * @throws RangeError where the difference is zero
 * @example sampleSizeForDifference({ difference: 1, sd: 1, power: 0.9 }) // 23
 */
export function sampleSizeForDifference(
  question: ScatterWithin & {
    readonly difference: number;
    readonly power?: number;
    readonly level?: number;
  },
): number {
  return sampleSizesForDifference(question).nA;
}

/**
 * Tests needed in two samples, n_B = `allocation` · n_A (rounded up, at least 2), to show a true
 * difference with the wanted power.
 * @throws RangeError where the difference is zero or needs more than 10 million tests
 * @example
 * sampleSizesForDifference({ difference: 10, sdA: 4, sdB: 8, allocation: 2 }) // { nA: 5, nB: 10 }
 */
export function sampleSizesForDifference(
  question: ScatterWithin & {
    readonly difference: number;
    readonly allocation?: number;
    readonly power?: number;
    readonly level?: number;
  },
): { nA: number; nB: number } {
  const { difference, allocation = 1, power = 0.8, level = 0.05 } = question;
  requirePower(power, level);
  if (!(allocation > 0) || allocation === Infinity)
    throw new RangeError(
      `sampleSizesForDifference: allocation is ${allocation}, expected a positive number of tests in B per test in A`,
    );
  if (!(Math.abs(difference) > 0) || !Number.isFinite(difference))
    throw new RangeError(
      `sampleSizeForDifference: difference is ${difference}, expected a number other than zero`,
    );
  const sizes = (nA: number): { nA: number; nB: number } => ({
    nA,
    nB: Math.max(2, Math.ceil(allocation * nA - 1e-9)),
  });
  const reaches = (n: number): boolean =>
    powerFunction(n, sizes(n).nB, question, level)(difference) >= power;
  let high = 2;
  while (!reaches(high)) {
    high *= 2;
    if (high > 1e7)
      throw new RangeError(
        `sampleSizeForDifference: difference is ${difference} for an ${scatterWords(question)}, expected one that fewer than 10 million tests can detect`,
      );
  }
  let low = Math.max(1, high / 2);
  if (high === 2) return sizes(2);
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (reaches(middle)) high = middle;
    else low = middle;
  }
  return sizes(high);
}

/**
 * Least true difference that samples of these sizes show with the wanted power: what a comparison
 * that found nothing could have found.
 * @example minimumDetectableDifference({ nA: 5, nB: 5, sd: 4, power: 0.8 }) // about 8.1
 */
export function minimumDetectableDifference(
  question: ScatterWithin & {
    readonly nA: number;
    readonly nB: number;
    readonly power?: number;
    readonly level?: number;
  },
): number {
  const { nA, nB, power = 0.8, level = 0.05 } = question;
  const reached = powerFunction(nA, nB, question, level);
  requirePower(power, level);
  let low = 0;
  let high = "sd" in question ? question.sd : Math.max(question.sdA, question.sdB);
  let above = reached(high) - power;
  while (above < 0) {
    low = high;
    high *= 2;
    above = reached(high) - power;
  }
  let below = low === 0 ? level - power : reached(low) - power;
  // False position with the end that stays halved (Illinois): power is smooth and rises with the
  // difference.
  for (let i = 0; i < 100 && high - low > 1e-11 * high; i++) {
    const between = low - (below * (high - low)) / (above - below);
    const middle = between > low && between < high ? between : 0.5 * (low + high);
    const value = reached(middle) - power;
    if (Math.abs(value) < 1e-13) return middle;
    if (value < 0) {
      low = middle;
      below = value;
      above /= 2;
    } else {
      high = middle;
      above = value;
      below /= 2;
    }
  }
  return 0.5 * (low + high);
}

/** The power as a function of the true difference. */
function powerFunction(
  nA: number,
  nB: number,
  scatter: ScatterWithin,
  level: number,
): (difference: number) => number {
  requireDesign(nA, nB, scatter, level);
  if (!("sd" in scatter)) return welchPower({ nA, nB, sdA: scatter.sdA, sdB: scatter.sdB, level });
  const freedom = nA + nB - 2;
  const critical = studentT(freedom).upperQuantile(level / 2);
  return (difference) => {
    const law = noncentralT(
      freedom,
      Math.abs(difference) / (scatter.sd * Math.sqrt(1 / nA + 1 / nB)),
    );
    return Math.min(1, law.upperTail(critical) + law.cdf(-critical));
  };
}

function scatterWords(scatter: ScatterWithin): string {
  return "sd" in scatter ? `SD of ${scatter.sd}` : `SD of ${scatter.sdA} and ${scatter.sdB}`;
}

function requireDesign(nA: number, nB: number, scatter: ScatterWithin, level: number): void {
  if (!(nA >= 2) || !(nB >= 2))
    throw new RangeError(
      `power of a t-test: sample sizes are ${nA} and ${nB}, expected at least 2 each`,
    );
  if (
    "sd" in scatter
      ? !(scatter.sd > 0 && scatter.sd < Infinity)
      : !(
          scatter.sdA >= 0 &&
          scatter.sdB >= 0 &&
          scatter.sdA + scatter.sdB > 0 &&
          scatter.sdA + scatter.sdB < Infinity
        )
  ) {
    throw new RangeError(
      `power of a t-test: ${scatterWords(scatter)}, expected a positive number${"sd" in scatter ? "" : "; one of two may be 0"}`,
    );
  }
  if (!(level > 0 && level < 1))
    throw new RangeError(`power of a t-test: level is ${level}, expected a number between 0 and 1`);
}

function requirePower(power: number, level: number): void {
  if (!(power > level && power < 1))
    throw new RangeError(
      `power of a t-test: power is ${power}, expected a number between the level ${level} and 1`,
    );
}
