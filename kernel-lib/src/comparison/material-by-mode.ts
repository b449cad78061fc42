import { adjustPValues, logRank } from "../statistics";
import { classMargin } from "./class-margin";
import type { ClassStratum } from "./class-strata";
import type { Evidence } from "./comparison";
import { labelsOf, quantityOf, readingOf } from "./class-words";
import { capitalised, valueWords } from "./labels";
import { failedSeries, halfWidth, modeDifference, type TestsOfClass } from "./mode-difference";

/**
 * Ratios of one mode, one material (or other class) against the reference, lower bounds treated as
 * right-censored.
 */
export interface ModeComparison {
  /** Columns in which the compared ratios agree, such as the mode. */
  readonly within: Readonly<Record<string, string | number | null>>;
  /** The mode where the ratios agree in it; else empty. */
  readonly mode: string;
  readonly reference: string;
  readonly other: string;
  /** Tests that failed in the mode, and tests that are lower bounds. */
  readonly failures: readonly [reference: number, other: number];
  readonly lowerBounds: readonly [reference: number, other: number];
  /** Series with a failure in the mode. */
  readonly failedSeries: readonly [reference: number, other: number];
  /**
   * Median ratio of the other over that of the reference, with its interval; null where there is no
   * comparison.
   */
  readonly ratio: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly p: number | null;
  /** p after Holm's correction for all comparisons made together. */
  readonly pAdjusted: number | null;
  /** Of the t that p and interval rest on; null where there is no comparison. */
  readonly degreesOfFreedom: number | null;
  /**
   * Whether p and interval allow for tests of one series being alike; null where there is no
   * comparison.
   */
  readonly seriesEffect: "included" | "ignored" | null;
  /** Why the series effect is ignored; null where it is included or there is no comparison. */
  readonly seriesEffectReason: string | null;
  /**
   * p of the log-rank test, which assumes no distribution and ignores the series effect; null where
   * there is none.
   */
  readonly pLogRank: number | null;
  /** Standard error of the difference in mean ln ratio; null where there is no comparison. */
  readonly standardError: number | null;
  /**
   * p of equivalence within the margin, smallest reduction found with power 0.8 as a share of the
   * reference median, and power to find a reduction of the margin (`classMargin`); null where no
   * margin is given or there is no comparison.
   */
  readonly pEquivalence: number | null;
  readonly detectable: number | null;
  readonly powerForMargin: number | null;
  readonly reading: string;
  /** Whether the medians count as the same within the margin; empty where that is not asked. */
  readonly equivalenceReading: string;
}

export interface ModeQuestion {
  /** The column that holds the classes, e.g. `bar_material`. */
  readonly column: string;
  readonly reference: string;
  /** Fewest failures on each side; default 3. */
  readonly minimum?: number;
  readonly confidence?: number;
  /** Share of the reference median within which medians count as the same; default: not asked. */
  readonly margin?: number;
}

/**
 * Compares classes on the test-to-predicted ratio among ratios that agree in some columns, such as
 * mode by mode, with tests that did not fail in the mode as lower bounds.
 *
 * Difference of the mean ln ratio with a random series effect ({@link modeDifference}); with fewer
 * than two series with a failure in a class, or tests without a series, the series effect is
 * ignored and `seriesEffect` says so. exp of it is the ratio of medians of log-normal ratios.
 * Holm's correction over all comparisons; a comparison without a significant difference is worded
 * with its joint (Bonferroni) interval.
 * @example
 * compareClasses(classStrata(comparison, ["mode", "bar_size"]), { column: "bar_material", reference: "steel" })
 */
export function compareClasses(
  strata: readonly ClassStratum[],
  question: ModeQuestion,
): ModeComparison[] {
  const { confidence = 0.95, minimum = 3 } = question;
  const pairs = strata
    .flatMap((one) => pairsOf(one, question))
    .map((pair) => {
      const failures = pair.classes.map(
        ({ tests }) => tests.filter(({ bound }) => !bound).length,
      ) as [number, number];
      const few = Math.min(...failures) < minimum;
      const found = few
        ? `${failures.join(" and ")} failures; at least ${minimum} each are needed`
        : modeDifference(...pair.classes);
      return { ...pair, failures, found };
    });
  const adjusted = adjustPValues(
    pairs.map(({ found }) => (typeof found === "string" ? NaN : found.p)),
  );
  const comparisons = pairs.filter(({ found }) => typeof found !== "string").length;
  return pairs.map(({ within, other, classes, failures, found }, k): ModeComparison => {
    const lowerBounds = classes.map(({ tests }, i) => tests.length - failures[i as 0 | 1]) as [
      number,
      number,
    ];
    const counts = {
      within,
      mode: String(within["mode"] ?? ""),
      reference: question.reference,
      other,
      failures,
      lowerBounds,
      failedSeries: classes.map((one) => failedSeries(one).size) as [number, number],
    };
    if (typeof found === "string") {
      const where = labelsOf(within).map((label) => `${label}, `);
      const names = capitalised(
        `${where.join("")}${valueWords(other)} against ${valueWords(question.reference)}`,
      );
      return {
        ...counts,
        ratio: null,
        lower: null,
        upper: null,
        p: null,
        pAdjusted: null,
        degreesOfFreedom: null,
        seriesEffect: null,
        seriesEffectReason: null,
        pLogRank: null,
        standardError: null,
        pEquivalence: null,
        detectable: null,
        powerForMargin: null,
        reading: `${names}: no comparison. ${found}.`,
        equivalenceReading: "",
      };
    }
    const half = halfWidth(found, confidence);
    const tests = classes.flatMap((one) => one.tests.map((test) => ({ ...test, name: one.name })));
    const rank = logRank({
      values: tests.map(({ ratio }) => ratio),
      censored: tests.map(({ bound }) => bound),
      groups: tests.map(({ name }) => name),
    });
    const pAdjusted = adjusted[k]!;
    const { quantity, prefix } = quantityOf(within);
    const names = {
      quantity,
      reference: valueWords(question.reference),
      other: valueWords(other),
    };
    const { equivalenceReading = "", ...power } =
      question.margin === undefined
        ? { pEquivalence: null, detectable: null, powerForMargin: null }
        : classMargin(found, question.margin, confidence, names);
    return {
      ...counts,
      ...power,
      equivalenceReading,
      standardError: found.standardError,
      ratio: Math.exp(found.estimate),
      lower: Math.exp(found.estimate - half),
      upper: Math.exp(found.estimate + half),
      p: found.p,
      pAdjusted,
      degreesOfFreedom: found.degreesOfFreedom,
      seriesEffect: found.seriesEffect,
      seriesEffectReason: found.reason,
      pLogRank: rank.status === "ok" ? rank.p : null,
      reading: `${prefix}${readingOf(found, counts, pAdjusted, comparisons, confidence)}`,
    };
  });
}

function pairsOf(
  { within, tests, evidence }: ClassStratum,
  question: ModeQuestion,
): {
  within: ClassStratum["within"];
  other: string;
  classes: [TestsOfClass, TestsOfClass];
}[] {
  const classOf = (one: Evidence): string => tests.text(one.row, question.column) ?? "";
  const known = evidence.filter((one) => classOf(one) !== "");
  const testsOf = (name: string): TestsOfClass => ({
    name,
    tests: known
      .filter((one) => classOf(one) === name)
      .map(({ ratio, bound, row }) => ({
        ratio,
        bound,
        series: tests.text(row, "series_id") || null,
      })),
  });
  const others = [...new Set(known.map(classOf))]
    .filter((name) => name !== question.reference)
    .sort();
  return others.map((other) => ({
    within,
    other,
    classes: [testsOf(question.reference), testsOf(other)],
  }));
}
