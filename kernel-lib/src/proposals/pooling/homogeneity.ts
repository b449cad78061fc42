import { listed } from "../../statistics/reading";
import { adjustPValues } from "../../statistics";
import { homogeneityBySeries } from "./homogeneity-by-series";
import { homogeneityByTests } from "./homogeneity-by-tests";
import type { ClassOfTests, Compared } from "./class-of-tests";

/** Whether classes may be pooled. */
export interface Homogeneity {
  readonly status: "no significant difference" | "differ" | "not compared";
  /**
   * What is assumed independent: series (series effect included) or tests (series effect ignored).
   */
  readonly basis: "series" | "tests";
  /** The statistical tests made, with their p; Holm's correction where there are two. */
  readonly tests: readonly {
    readonly method: string;
    readonly p: number;
    readonly pAdjusted: number;
  }[];
  readonly difference: Compared["difference"];
  readonly level: number;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
  readonly reading: string;
}

/**
 * Homogeneity of ln(test/predicted) over classes, before pooling.
 *
 * Where the tests name their series, series are the random unit ({@link homogeneityBySeries}), since
 * tests of one share concrete, hole and day and a difference of two series is none of two
 * materials. Where none does, the series effect is ignored ({@link homogeneityByTests}), which the
 * assumptions say. Holm's correction where two tests are made.
 *
 * Where tests name series and a class has fewer than 3 that failed, or some tests name none, the
 * classes are not compared: the series effect is not ignored instead. No significant difference
 * does not mean equal: `difference` says what may remain.
 *
 * @param level of the tests; 0.05 by default
 * @throws RangeError for fewer than two classes
 * @example
 * const tests = [0.9, 1.1, 1.2].map((ratio) => ({ ratio, bound: false }));
 * homogeneityOfClasses([{ label: "GFRP", tests }, { label: "BFRP", tests }]).status
 * // "no significant difference"
 */
export function homogeneityOfClasses(
  classes: readonly ClassOfTests[],
  level: number = 0.05,
): Homogeneity {
  if (classes.length < 2)
    throw new RangeError(`homogeneityOfClasses: ${classes.length} classes, expected at least 2`);
  const named = listed(classes.map(({ label }) => label));
  const basis = classes.some(({ tests }) => tests.some(({ series }) => series !== undefined))
    ? "series"
    : "tests";
  const found =
    basis === "series" ? homogeneityBySeries(classes, level) : homogeneityByTests(classes);
  const base = {
    level,
    basis,
    assumptions: [
      "ln(test/predicted) is normal in each class",
      basis === "series"
        ? "series are independent of each other; differences between laboratories appear as differences between series"
        : "tests are independent of each other (series effect ignored): if tests of a series share an error, significant differences between classes are found too often",
    ],
  } as const;
  if (typeof found === "string")
    return {
      ...base,
      status: "not compared",
      tests: [],
      difference: null,
      warnings: [],
      reading: `${named} were not compared and must not be pooled: ${found}.`,
    };
  const adjusted = adjustPValues(
    found.tests.map(({ p }) => p),
    "holm",
  );
  const tests = found.tests.map((one, k) => ({ ...one, pAdjusted: adjusted[k] ?? one.p }));
  const differ = tests.some(({ pAdjusted }) => pAdjusted < level);
  const how = tests
    .map(
      ({ method, pAdjusted }) =>
        `${method}, p ${pAdjusted < 0.001 ? "below 0.001" : pAdjusted.toFixed(3)}`,
    )
    .join("; ");
  const { difference, warnings = [] } = found;
  const remains =
    difference === null
      ? "small differences are possible"
      : `the median ratio of ${difference.of} may still be ${difference.lower.toFixed(2)} to ${difference.upper.toFixed(2)} times that of ${difference.over}`;
  return {
    ...base,
    tests,
    difference,
    warnings,
    status: differ ? "differ" : "no significant difference",
    reading: `${differ ? `${named} differ at the ${100 * level} % level (${how}) and may not be pooled.` : `No significant difference between ${named} was found, series effect ${basis === "series" ? "included" : "ignored"} (${how}): they may be pooled. This does not show that they are equal: ${remains}.`}${warnings.map((one) => ` Caution: ${one}.`).join("")}`,
  };
}
