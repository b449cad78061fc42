import { studentT } from "../statistics";
import { noncentralT } from "../statistics/distributions/noncentral-t";
import { percent, pWords, significant } from "../statistics/reading";
import type { ModeDifference } from "./mode-difference";

/** What a comparison of two classes could have found, and whether they are equivalent. */
export interface ClassMargin {
  /** p of two one-sided t-tests that the ratio of medians lies within 1 ± margin. */
  readonly pEquivalence: number;
  /** Smallest reduction, a share of the reference median, that is found with power 0.8. */
  readonly detectable: number;
  /** Power to find a reduction of the margin. */
  readonly powerForMargin: number;
  readonly equivalenceReading: string;
}

/** Power that is held to be enough (common practice, no source). */
const POWER = 0.8;

/**
 * Equivalence and power of a difference d of two classes in mean ln ratio with standard error s on
 * ν degrees of freedom.
 *
 * Equivalence within 1 ± m by two one-sided t-tests (Schuirmann 1987): p is the larger of
 * P(T > (d − ln(1 − m))/s) and P(T < (d − ln(1 + m))/s). Power against a true ratio of medians q:
 * P(|T′| > t_crit), T′ noncentral t with ν degrees of freedom and δ = |ln q|/s, the standard error
 * taken as known (it is the one found, so the power is approximate). Not corrected for several
 * comparisons.
 * @throws RangeError for a margin that is not between 0 and 1
 */
export function classMargin(
  found: ModeDifference,
  margin: number,
  confidence: number,
  names: { readonly quantity: string; readonly reference: string; readonly other: string },
): ClassMargin {
  if (!(margin > 0 && margin < 1))
    throw new RangeError(
      `The margin is ${margin}; expected a share of the reference between 0 and 1, such as 0.15.`,
    );
  const { estimate, standardError, degreesOfFreedom } = found;
  const law = studentT(degreesOfFreedom);
  const pLower = law.upperTail((estimate - Math.log(1 - margin)) / standardError);
  const pUpper = law.cdf((estimate - Math.log(1 + margin)) / standardError);
  const pEquivalence = Math.max(pLower, pUpper);
  const level = 1 - confidence;
  const side = pLower >= level && pUpper >= level ? "outside" : pLower >= level ? "below" : "above";
  const range = `${significant(1 - margin)} to ${significant(1 + margin)} times`;
  const tests = `two one-sided tests at ${percent(level)}, ${pWords(pEquivalence)}`;
  return {
    pEquivalence,
    detectable: detectableReduction(found, confidence),
    powerForMargin: powerOfDifference(found, 1 - margin, confidence),
    equivalenceReading:
      pEquivalence < level
        ? `The ${names.quantity} of ${names.other} lies within ${range} that of ${names.reference}: equivalent (${tests}).`
        : `Equivalence was not shown: the ${names.quantity} of ${names.other} may lie ${side} ${range} that of ${names.reference} (${tests}).`,
  };
}

/** Power to find a true ratio of medians, as in {@link classMargin}. */
export function powerOfDifference(
  { standardError, degreesOfFreedom }: Pick<ModeDifference, "standardError" | "degreesOfFreedom">,
  ratio: number,
  confidence: number,
): number {
  const critical = studentT(degreesOfFreedom).upperQuantile((1 - confidence) / 2);
  const law = noncentralT(degreesOfFreedom, Math.abs(Math.log(ratio)) / standardError);
  return Math.min(1, law.upperTail(critical) + law.cdf(-critical));
}

function detectableReduction(found: ModeDifference, confidence: number): number {
  const power = (d: number): number => powerOfDifference(found, Math.exp(-d), confidence);
  let [low, high] = [0, found.standardError];
  while (power(high) < POWER) [low, high] = [high, 2 * high];
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (power(middle) < POWER) low = middle;
    else high = middle;
  }
  return 1 - Math.exp(-high);
}
