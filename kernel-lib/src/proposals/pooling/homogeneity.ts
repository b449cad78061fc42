import { adjustPValues, chiSquared, equalVariancesTest, welchAnalysisOfVariance } from "../../statistics";
import { NoMaximumError } from "../../statistics/censoring/censored-likelihood";
import { maximumOf } from "../../statistics/censoring/censored-maximum";
import { lawOf } from "../../statistics/censoring/location-scale-law";
import type { EvidenceTest } from "../evidence/characteristic-of-tests";

/** The tests of one class, such as one material, in one mode. */
export interface ClassOfTests {
  readonly label: string;
  readonly tests: readonly Pick<EvidenceTest, "ratio" | "bound">[];
}

/** Whether classes may be pooled. */
export interface Homogeneity {
  readonly status: "not told apart" | "differ" | "cannot tell";
  /** The statistical tests made, with their p; Holm's correction where there are two. */
  readonly tests: readonly { readonly method: string; readonly p: number; readonly pAdjusted: number }[];
  readonly level: number;
  readonly assumptions: readonly string[];
  readonly reading: string;
}

/** Fewest failures a class needs to be tested at all. */
const LEAST_FAILURES = 3;

/**
 * Homogeneity of ln(test/predicted) over classes, before pooling.
 *
 * Without lower bounds: Welch's one-way test of the means and the Brown-Forsythe test of the variances, Holm-corrected.
 * With lower bounds: likelihood ratio of one log-normal law for all against one for each class, 2 (ln L_each − ln L_all)
 * against chi-squared with 2 (k − 1) degrees of freedom (large-sample: with few failures it tells classes apart too
 * readily, which keeps them apart and is the safe side). Tests of one series share an error, which acts the same way.
 *
 * @param level of the tests; 0.05 by default
 * @throws RangeError for fewer than two classes
 * @example homogeneityOfClasses([{ label: "GFRP", tests: glass }, { label: "BFRP", tests: basalt }]).reading
 */
export function homogeneityOfClasses(classes: readonly ClassOfTests[], level: number = 0.05): Homogeneity {
  if (classes.length < 2) throw new RangeError(`homogeneityOfClasses: ${classes.length} classes, expected at least 2`);
  const named = listed(classes.map(({ label }) => label));
  const few = classes.filter(({ tests }) => tests.filter(({ bound }) => !bound).length < LEAST_FAILURES);
  const base = { level, assumptions: ["ln(test/predicted) is normal in each class", "tests independent; those of one series are not quite, so that classes are told apart too readily rather than too rarely"] };
  if (few.length > 0) return { ...base, status: "cannot tell", tests: [], reading: `Whether ${named} may be pooled cannot be told: fewer than ${LEAST_FAILURES} tests failed in the mode for ${few.map(({ label }) => label).join(", ")}.` };
  const found = classes.some(({ tests }) => tests.some(({ bound }) => bound)) ? likelihoodRatio(classes) : meansAndVariances(classes);
  if (typeof found === "string") return { ...base, status: "cannot tell", tests: [], reading: `Whether ${named} may be pooled cannot be told: ${found}.` };
  const adjusted = adjustPValues(found.map(({ p }) => p), "holm");
  const tests = found.map((one, k) => ({ ...one, pAdjusted: adjusted[k] ?? one.p }));
  const differ = tests.some(({ pAdjusted }) => pAdjusted < level);
  const how = tests.map(({ method, pAdjusted }) => `${method}, p ${pAdjusted < 0.001 ? "below 0.001" : pAdjusted.toFixed(3)}`).join("; ");
  return {
    ...base, tests, status: differ ? "differ" : "not told apart",
    reading: differ ? `${named} differ at the ${100 * level} % level (${how}) and may not be pooled.` : `The tests do not tell ${named} apart (${how}): they may be pooled, though small differences can remain.`,
  };
}

type Found = { readonly method: string; readonly p: number }[];

function meansAndVariances(classes: readonly ClassOfTests[]): Found | string {
  const samples = Object.fromEntries(classes.map(({ label, tests }) => [label, tests.map(({ ratio }) => Math.log(ratio))]));
  const [means, variances] = [welchAnalysisOfVariance(samples), equalVariancesTest(samples)];
  if (means.status !== "ok") return `${means.reason}; needed: ${means.needed}`;
  if (variances.status !== "ok") return `${variances.reason}; needed: ${variances.needed}`;
  return [{ method: "means, Welch", p: means.p }, { method: "variances, Brown-Forsythe", p: variances.p }];
}

function likelihoodRatio(classes: readonly ClassOfTests[]): Found | string {
  const law = lawOf("lognormal");
  const logLikelihood = (tests: ClassOfTests["tests"]): number =>
    maximumOf({ y: Float64Array.from(tests, ({ ratio }) => Math.log(ratio)), censored: Uint8Array.from(tests, ({ bound }) => (bound ? 1 : 0)) }, law).logLikelihood;
  try {
    const apart = classes.reduce((sum, { tests }) => sum + logLikelihood(tests), 0);
    const statistic = Math.max(0, 2 * (apart - logLikelihood(classes.flatMap(({ tests }) => tests))));
    return [{ method: "one law against several with lower bounds, likelihood ratio", p: chiSquared(2 * (classes.length - 1)).upperTail(statistic) }];
  } catch (error) {
    if (error instanceof NoMaximumError) return error.message;
    throw error;
  }
}

function listed(names: readonly string[]): string {
  return `${names.slice(0, -1).join(", ")} and ${names[names.length - 1] ?? ""}`;
}
