import { noncentralT } from "../distributions/noncentral-t";
import { studentT } from "../distributions/student-t";

/** What the power of a two-sample, two-sided t-test depends on. */
export interface PowerQuestion {
  nA: number;
  nB: number;
  /** True difference of the means. */
  difference: number;
  /** SD within each population. */
  sd: number;
  /** Significance level, default 0.05. */
  level?: number;
}

/**
 * Power of the two-sided two-sample t-test with equal variances, both rejection tails counted:
 * P(|T′| > t_crit), T′ noncentral t with ν = n_A + n_B − 2 and δ = Δ/(σ √(1/n_A + 1/n_B)).
 * @example powerOfTTest({ nA: 20, nB: 20, difference: 1, sd: 1 }) // 0.8690
 */
export function powerOfTTest(question: PowerQuestion): number {
  const { nA, nB, difference, sd, level = 0.05 } = question;
  requireDesign(nA, nB, sd, level);
  const freedom = nA + nB - 2;
  const delta = Math.abs(difference) / (sd * Math.sqrt(1 / nA + 1 / nB));
  const critical = studentT(freedom).upperQuantile(level / 2);
  const law = noncentralT(freedom, delta);
  return Math.min(1, law.upperTail(critical) + law.cdf(-critical));
}

/**
 * Tests needed in each of two equal samples to show a true difference with the wanted power.
 * @throws RangeError where the difference is zero
 * @example sampleSizeForDifference({ difference: 1, sd: 1, power: 0.9 }) // 23
 */
export function sampleSizeForDifference(question: { difference: number; sd: number; power?: number; level?: number }): number {
  const { difference, sd, power = 0.8, level = 0.05 } = question;
  requireDesign(2, 2, sd, level);
  requirePower(power, level);
  if (!(Math.abs(difference) > 0) || !Number.isFinite(difference)) throw new RangeError(`sampleSizeForDifference: difference is ${difference}, expected a number other than zero`);
  const reaches = (n: number): boolean => powerOfTTest({ nA: n, nB: n, difference, sd, level }) >= power;
  let high = 2;
  while (!reaches(high)) {
    high *= 2;
    if (high > 1e7) throw new RangeError(`sampleSizeForDifference: difference is ${difference} for an SD of ${sd}, expected one that fewer than 10 million tests can show`);
  }
  let low = Math.max(1, high / 2);
  if (high === 2) return 2;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (reaches(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * Least true difference that samples of these sizes show with the wanted power: what a comparison that found
 * nothing could have found.
 * @example minimumDetectableDifference({ nA: 5, nB: 5, sd: 4, power: 0.8 }) // about 8.1
 */
export function minimumDetectableDifference(question: { nA: number; nB: number; sd: number; power?: number; level?: number }): number {
  const { nA, nB, sd, power = 0.8, level = 0.05 } = question;
  requireDesign(nA, nB, sd, level);
  requirePower(power, level);
  let low = 0;
  let high = sd;
  while (powerOfTTest({ nA, nB, sd, level, difference: high }) < power) high *= 2;
  for (let i = 0; i < 60 && high - low > 1e-12 * high; i++) {
    const middle = 0.5 * (low + high);
    if (powerOfTTest({ nA, nB, sd, level, difference: middle }) < power) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}

function requireDesign(nA: number, nB: number, sd: number, level: number): void {
  if (!(nA >= 2) || !(nB >= 2)) throw new RangeError(`power of a t-test: sample sizes are ${nA} and ${nB}, expected at least 2 each`);
  if (!(sd > 0) || sd === Infinity) throw new RangeError(`power of a t-test: sd is ${sd}, expected a positive number`);
  if (!(level > 0 && level < 1)) throw new RangeError(`power of a t-test: level is ${level}, expected a number between 0 and 1`);
}

function requirePower(power: number, level: number): void {
  if (!(power > level && power < 1)) throw new RangeError(`power of a t-test: power is ${power}, expected a number between the level ${level} and 1`);
}
