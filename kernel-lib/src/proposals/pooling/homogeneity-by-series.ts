import {
  chiSquared,
  FEWEST_SERIES,
  nestedAnalysisOfVariance,
  sampleQuantile,
  studentT,
  type GroupInSeries,
} from "../../statistics";
import { NoMaximumError } from "../../statistics/censoring/censored-likelihood";
import { welchOfMeans } from "../../statistics/comparison/welch-of-means";
import { estimatesBySeries } from "../../statistics/series/estimates-by-series";
import type { ClassOfTests, Compared } from "./class-of-tests";

/**
 * Compares ln(test/predicted) of classes with the series as the random unit.
 *
 * Without lower bounds: nested analysis of variance of the means (`nestedAnalysisOfVariance`: F of
 * the classes against the scatter between series of one class, Satterthwaite's degrees of freedom
 * for series of unequal size), and the same of the distances
 * |y − median of the class|, the Brown-Forsythe test with series in place of tests.
 * With lower bounds each class gets its own one-way law by maximum likelihood
 * (`estimatesBySeries`): Welch's test of the means, each known to (series that failed − 1) degrees
 * of freedom, and Σ (ln s_i − mean)²/variance_i of the scatters against chi-squared with k − 1
 * degrees of freedom.
 *
 * Limits: normal logarithms; the analysis of variance takes the scatters as the same in every class
 * (the second test looks at that). Two series say nothing of how a scatter between series compares
 * (their distances from the median are equal: 20 % false alarms), so every class needs 3. Called
 * different though alike, of 5 % stated, 3 to 19 series a class and correlations of 0 to 0.8: 2 to
 * 6 % without lower bounds, 0 to 6 % with 30 % of them.
 *
 * Sources: see `nestedAnalysisOfVariance` and `welchOfMeans`; Brown and Forsythe, J. Am. Stat.
 * Assoc. 69 (1974). Their use on distances by series, and the test of ln s, are this library's own,
 * judged by simulation.
 * @returns the tests made with the largest difference of two classes, or why they cannot be made
 */
export function homogeneityBySeries(
  classes: readonly ClassOfTests[],
  level: number,
): Compared | string {
  const nameless = classes.flatMap(({ label, tests }) =>
    tests.some(({ series }) => (series ?? "") === "")
      ? [
          `${tests.filter(({ series }) => (series ?? "") === "").length} of ${tests.length} of ${label}`,
        ]
      : [],
  );
  if (nameless.length > 0) return `not all tests have a series (${nameless.join(", ")} do not)`;
  const failed = classes.map(({ label, tests }) => ({
    label,
    count: new Set(tests.filter(({ bound }) => !bound).map(({ series }) => series)).size,
  }));
  const few = failed.filter(({ count }) => count < FEWEST_SERIES);
  if (few.length > 0)
    return `at least ${FEWEST_SERIES} series with a failure in the mode are needed in every class to estimate between-series variance (${few.map(({ label, count }) => `${label} has ${count}`).join(", ")})`;
  const found = classes.some(({ tests }) => tests.some(({ bound }) => bound))
    ? censored(classes, level)
    : nested(classes, level);
  return typeof found === "string" ? found : { ...found, warnings: warningsOf(classes, failed) };
}

function warningsOf(
  classes: readonly ClassOfTests[],
  failed: readonly { readonly label: string; readonly count: number }[],
): string[] {
  const classesOf = new Map<string, Set<string>>();
  for (const { label, tests } of classes)
    for (const { series = "" } of tests)
      classesOf.set(series, (classesOf.get(series) ?? new Set()).add(label));
  const shared = [...classesOf.values()].filter((labels) => labels.size > 1).length;
  const few = failed.filter(({ count }) => count < 6);
  return [
    ...(shared > 0
      ? [
          `${shared} series ${shared === 1 ? "has tests in more than one class and counts" : "have tests in more than one class and count"} as another series in each: a difference of classes is then found too rarely`,
        ]
      : []),
    ...(few.length > 0
      ? [
          `only ${few.map(({ label, count }) => `${count} series of ${label}`).join(" and ")} failed in the mode: only a large difference could be detected`,
        ]
      : []),
  ];
}

function nested(classes: readonly ClassOfTests[], level: number): Compared | string {
  const groups = classes.map(({ label, tests }): GroupInSeries => ({
    name: label,
    values: tests.map(({ ratio }) => Math.log(ratio)),
    series: tests.map(({ series }) => series ?? ""),
  }));
  const means = nestedAnalysisOfVariance(groups);
  const scatters = nestedAnalysisOfVariance(
    groups.map((group) => {
      const middle = sampleQuantile(group.values, 0.5) ?? NaN;
      return { ...group, values: group.values.map((value) => Math.abs(value - middle)) };
    }),
  );
  if (means.status !== "ok") return `${means.reason}; needed: ${means.needed}`;
  if (scatters.status !== "ok") return `${scatters.reason}; needed: ${scatters.needed}`;
  return {
    tests: [
      { method: "means, by a nested analysis of variance", p: means.p },
      { method: "scatter, by the same analysis of the deviations from the medians", p: scatters.p },
    ],
    difference: largest(
      groups.map(({ name, values }) => ({
        label: name,
        mean: values.reduce((sum, value) => sum + value, 0) / values.length,
        variance: means.meanSquareError / values.length,
        degrees: means.denominatorDegrees,
      })),
      level,
      () => means.denominatorDegrees,
    ),
  };
}

function censored(classes: readonly ClassOfTests[], level: number): Compared | string {
  try {
    const found = classes.map(({ label, tests }) => ({
      label,
      ...estimatesBySeries(
        {
          y: Float64Array.from(tests, ({ ratio }) => Math.log(ratio)),
          censored: Uint8Array.from(tests, ({ bound }) => (bound ? 1 : 0)),
        },
        tests.map(({ series }) => series ?? ""),
      ),
    }));
    const means = welchOfMeans(
      found.map(({ mean }) => mean),
      found.map(({ meanVariance }) => 1 / meanVariance),
      found.map(({ degrees }) => degrees),
    );
    const weights = found.map(({ logSdVariance }) => 1 / logSdVariance);
    const centre =
      found.reduce((sum, { logSd }, i) => sum + (weights[i] ?? NaN) * logSd, 0) /
      weights.reduce((sum, one) => sum + one, 0);
    const statistic = found.reduce(
      (sum, { logSd }, i) => sum + (weights[i] ?? NaN) * (logSd - centre) ** 2,
      0,
    );
    return {
      tests: [
        { method: "means with lower bounds, Welch by series", p: means.p },
        {
          method: "scatter with lower bounds",
          p: chiSquared(found.length - 1).upperTail(statistic),
        },
      ],
      difference: largest(
        found.map(({ label, mean, meanVariance, degrees }) => ({
          label,
          mean,
          variance: meanVariance,
          degrees,
        })),
        level,
        (a, b) =>
          (a.variance + b.variance) ** 2 /
          (a.variance ** 2 / a.degrees + b.variance ** 2 / b.degrees),
      ),
    };
  } catch (error) {
    if (error instanceof NoMaximumError) return error.message;
    throw error;
  }
}

interface Mean {
  readonly label: string;
  readonly mean: number;
  readonly variance: number;
  readonly degrees: number;
}

/**
 * The lowest class over the highest, with an interval that for two classes holds 1 just where
 * Holm's correction of the two tests finds no significant difference of the means.
 */
function largest(
  means: readonly Mean[],
  level: number,
  degreesOf: (a: Mean, b: Mean) => number,
): NonNullable<Compared["difference"]> {
  const sorted = [...means].sort((a, b) => a.mean - b.mean);
  const [low, high] = [sorted[0]!, sorted[sorted.length - 1]!];
  const confidence = 1 - level / means.length / (means.length - 1);
  const half =
    studentT(degreesOf(low, high)).quantile((1 + confidence) / 2) *
    Math.sqrt(low.variance + high.variance);
  const apart = low.mean - high.mean;
  return {
    of: low.label,
    over: high.label,
    ratio: Math.exp(apart),
    lower: Math.exp(apart - half),
    upper: Math.exp(apart + half),
    confidence,
  };
}
