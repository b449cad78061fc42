import { studentT } from "../distributions/student-t";
import { percent, pWords, significant } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable } from "../result";
import type { ComparisonNames, TwoSamples } from "./two-samples";
import { ratioSide, satterthwaite } from "./ratio-contrast";
import { meansOf, twoSamples } from "./two-samples";

/**
 * The range within which two means count as equivalent: of the difference B − A, or of the ratio
 * B/A.
 */
export type EquivalenceMargin =
  { differenceFrom: number; differenceTo: number } | { ratioFrom: number; ratioTo: number };

/** Outcome of two one-sided tests. */
export interface EquivalenceTest extends Account {
  status: "ok";
  /** p of "not below the lower margin", p of "not above the upper margin". */
  pLower: number;
  pUpper: number;
  /** The larger of the two: below the level, equivalence is shown. */
  p: number;
  equivalent: boolean;
}

/**
 * Equivalence of two means by two one-sided t-tests (Schuirmann 1987). For a ratio margin θ the
 * tests are of μ_B − θ μ_A (Sasabuchi 1980), so nothing need be known of the means but that they
 * are positive. Degrees of freedom are Satterthwaite's for the contrast tested, at its θ
 * (`ratioSide` says why), for a difference those of Welch's test.
 *
 * The interval of the ratio (`ratioOfMeans`, `welchTest`) is made of the same tests: at level α
 * equivalence is shown just where the interval of confidence 1 − 2α lies within the margin, of the
 * ratio or of the difference.
 * @example equivalenceTest(steel, glass, { ratioFrom: 0.9, ratioTo: 1.1 }).reading
 */
export function equivalenceTest(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  margin: EquivalenceMargin,
  options: ComparisonNames & { level?: number } = {},
): EquivalenceTest | NotEstimable {
  const { level = 0.05, nameA = "A", nameB = "B", quantity = "mean" } = options;
  const method = "Two one-sided t-tests of equivalence";
  const byRatio = "ratioFrom" in margin;
  const from = byRatio ? margin.ratioFrom : margin.differenceFrom;
  const to = byRatio ? margin.ratioTo : margin.differenceTo;
  if (!(from < to) || (byRatio && !(from > 0))) {
    throw new RangeError(
      `equivalenceTest: margin is ${from} to ${to}, expected a lower end below the upper end${byRatio ? ", both positive" : ""}`,
    );
  }
  const samples = twoSamples(a, b, method, "equivalenceTest");
  if ("status" in samples) return samples;
  const n = samples.a.length + samples.b.length;
  if (byRatio && !(samples.meanA > 0 && samples.meanB > 0))
    return notEstimable(
      method,
      "values not positive",
      "both means above zero",
      n,
      samples.excluded,
    );
  const [pLower, pUpper] = oneSidedTests(samples, byRatio, from, to);
  const p = Math.max(pLower, pUpper);
  const equivalent = p < level;
  const range = byRatio
    ? `${significant(from)} to ${significant(to)} times`
    : `${significant(from)} to ${significant(to)} from`;
  const side = pLower >= level && pUpper >= level ? "outside" : pLower >= level ? "below" : "above";
  const tests = `two one-sided tests at ${percent(level)}, ${pWords(p)}`;
  return {
    status: "ok",
    method,
    pLower,
    pUpper,
    p,
    equivalent,
    n,
    excluded: samples.excluded,
    assumptions: [
      "values independent, each sample of one population",
      "populations normal",
      "margin chosen before the data were seen",
    ],
    reading: equivalent
      ? `The ${quantity} of ${nameB} lies within ${range} that of ${nameA}: equivalent (${tests}).`
      : `Equivalence was not shown: the ${quantity} of ${nameB} may lie ${side} ${range} that of ${nameA} (${tests}).`,
  };
}

/** p of "the difference or ratio is at most `from`" and of "is at least `to`". */
function oneSidedTests(
  samples: TwoSamples,
  byRatio: boolean,
  from: number,
  to: number,
): [pLower: number, pUpper: number] {
  const [a, b] = meansOf(samples);
  // "B/A is at least `to`" is "A/B is at most 1/to".
  if (byRatio) return [ratioSide(a, b).pBelow(from), ratioSide(b, a).pBelow(1 / to)];
  const law = studentT(satterthwaite([a, b]));
  const [difference, error] = [b.mean - a.mean, Math.sqrt(a.variance + b.variance)];
  return [law.upperTail((difference - from) / error), law.cdf((difference - to) / error)];
}
