import { chiSquared, equalVariancesTest, welchAnalysisOfVariance } from "../../statistics";
import { NoMaximumError } from "../../statistics/censoring/censored-likelihood";
import { maximumOf } from "../../statistics/censoring/censored-maximum";
import { lawOf } from "../../statistics/censoring/location-scale-law";
import type { ClassOfTests, Compared } from "./class-of-tests";

/** Fewest failures a class needs to be tested at all. */
const LEAST_FAILURES = 3;

/**
 * Compares ln(test/predicted) of classes whose tests have no series, series effect ignored: each
 * test is assumed independent of the others.
 *
 * Without lower bounds: Welch's one-way test of the means and the Brown-Forsythe test of the
 * variances. With lower bounds: likelihood ratio of one log-normal law for all against one for each
 * class, 2 (ln L_each − ln L_all) against chi-squared with 2 (k − 1) degrees of freedom
 * (large-sample: with few failures classes differ significantly too often). Where tests do come in
 * series that share an error, both call classes different too often: of classes of one law 15 to 60
 * % instead of 5 % (intraclass correlation 0.3 to 0.8, 2 to 22 series).
 * @returns the tests made, or why they cannot be made
 */
export function homogeneityByTests(classes: readonly ClassOfTests[]): Compared | string {
  const few = classes.filter(
    ({ tests }) => tests.filter(({ bound }) => !bound).length < LEAST_FAILURES,
  );
  if (few.length > 0)
    return `fewer than ${LEAST_FAILURES} tests failed in the mode for ${few.map(({ label }) => label).join(", ")}`;
  return classes.some(({ tests }) => tests.some(({ bound }) => bound))
    ? likelihoodRatio(classes)
    : meansAndVariances(classes);
}

function meansAndVariances(classes: readonly ClassOfTests[]): Compared | string {
  const samples = Object.fromEntries(
    classes.map(({ label, tests }) => [label, tests.map(({ ratio }) => Math.log(ratio))]),
  );
  const [means, variances] = [welchAnalysisOfVariance(samples), equalVariancesTest(samples)];
  if (means.status !== "ok") return `${means.reason}; needed: ${means.needed}`;
  if (variances.status !== "ok") return `${variances.reason}; needed: ${variances.needed}`;
  return {
    tests: [
      { method: "means, Welch", p: means.p },
      { method: "variances, Brown-Forsythe", p: variances.p },
    ],
    difference: null,
  };
}

function likelihoodRatio(classes: readonly ClassOfTests[]): Compared | string {
  const law = lawOf("lognormal");
  const logLikelihood = (tests: ClassOfTests["tests"]): number =>
    maximumOf(
      {
        y: Float64Array.from(tests, ({ ratio }) => Math.log(ratio)),
        censored: Uint8Array.from(tests, ({ bound }) => (bound ? 1 : 0)),
      },
      law,
    ).logLikelihood;
  try {
    const apart = classes.reduce((sum, { tests }) => sum + logLikelihood(tests), 0);
    const statistic = Math.max(
      0,
      2 * (apart - logLikelihood(classes.flatMap(({ tests }) => tests))),
    );
    return {
      tests: [
        {
          method:
            "likelihood-ratio test of one distribution for all classes against one for each, including lower bounds",
          p: chiSquared(2 * (classes.length - 1)).upperTail(statistic),
        },
      ],
      difference: null,
    };
  } catch (error) {
    if (error instanceof NoMaximumError) return error.message;
    throw error;
  }
}
