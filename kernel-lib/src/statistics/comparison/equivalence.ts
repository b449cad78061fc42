import { studentT } from "../distributions/student-t";
import { percent, pWords, significant } from "../reading";
import type { Account, CannotTell } from "../result";
import { cannotTell } from "../result";
import type { ComparisonNames, TwoSamples } from "./two-samples";
import { twoSamples } from "./two-samples";

/** The range within which two means count as equivalent: of the difference B − A, or of the ratio B/A. */
export type EquivalenceMargin =
  | { differenceFrom: number; differenceTo: number }
  | { ratioFrom: number; ratioTo: number };

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
 * Equivalence of two means by two one-sided t-tests (Schuirmann 1987), Welch's degrees of freedom. For a ratio margin θ
 * the tests are of μ_B − θ μ_A (Sasabuchi), so nothing need be known about μ_A but that it is positive.
 * @example equivalenceTest(steel, glass, { ratioFrom: 0.9, ratioTo: 1.1 }).reading
 */
export function equivalenceTest(
  a: ArrayLike<number>, b: ArrayLike<number>, margin: EquivalenceMargin, options: ComparisonNames & { level?: number } = {},
): EquivalenceTest | CannotTell {
  const { level = 0.05, nameA = "A", nameB = "B", quantity = "mean" } = options;
  const method = "Two one-sided t-tests of equivalence";
  const byRatio = "ratioFrom" in margin;
  const from = byRatio ? margin.ratioFrom : margin.differenceFrom;
  const to = byRatio ? margin.ratioTo : margin.differenceTo;
  if (!(from < to) || (byRatio && !(from > 0))) {
    throw new RangeError(`equivalenceTest: margin is ${from} to ${to}, expected a lower end below the upper end${byRatio ? ", both positive" : ""}`);
  }
  const samples = twoSamples(a, b, method, "equivalenceTest");
  if ("status" in samples) return samples;
  const n = samples.a.length + samples.b.length;
  if (byRatio && !(samples.meanA > 0)) return cannotTell(method, "values not positive", `a mean of ${nameA} above zero`, n, samples.setAside);
  const pLower = oneSided(samples, byRatio ? from : 1, byRatio ? 0 : from, "above");
  const pUpper = oneSided(samples, byRatio ? to : 1, byRatio ? 0 : to, "below");
  const p = Math.max(pLower, pUpper);
  const equivalent = p < level;
  const range = byRatio ? `${significant(from)} to ${significant(to)} times` : `${significant(from)} to ${significant(to)} from`;
  const side = pLower >= level && pUpper >= level ? "on either side" : pLower >= level ? "below it" : "above it";
  return {
    status: "ok", method, pLower, pUpper, p, equivalent, n, setAside: samples.setAside,
    assumptions: ["values independent, each sample of one population", "populations normal", "margin fixed before the data were seen"],
    reading: equivalent
      ? `The ${quantity} of ${nameB} lies within ${range} that of ${nameA} (two one-sided tests at ${percent(level)}, ${pWords(p)}).`
      : `Equivalence is not shown: the ${quantity} of ${nameB} within ${range} that of ${nameA} is not assured, it may lie ${side} (two one-sided tests at ${percent(level)}, ${pWords(p)}).`,
  };
}

/** One-sided p for μ_B − factor·μ_A beyond `offset`. */
function oneSided(samples: TwoSamples, factor: number, offset: number, side: "above" | "below"): number {
  const shareA = (factor * factor * samples.varianceA) / samples.a.length;
  const shareB = samples.varianceB / samples.b.length;
  const degreesOfFreedom = (shareA + shareB) ** 2 / (shareA ** 2 / (samples.a.length - 1) + shareB ** 2 / (samples.b.length - 1));
  const t = (samples.meanB - factor * samples.meanA - offset) / Math.sqrt(shareA + shareB);
  const law = studentT(degreesOfFreedom);
  return side === "above" ? law.upperTail(t) : law.cdf(t);
}
