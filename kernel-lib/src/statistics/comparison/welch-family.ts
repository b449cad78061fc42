import { counted } from "../reading";
import type { NotEstimable } from "../result";
import { adjustPValues } from "./adjust-p-values";
import { differenceReading } from "./difference-words";
import type { TTest, TTestOptions } from "./t-test";
import { welchTest } from "./t-test";

/** One comparison of a family: two samples and their names. */
export interface FamilyQuestion extends TTestOptions {
  readonly a: ArrayLike<number>;
  readonly b: ArrayLike<number>;
}

/** Welch's test of one pair with what the other comparisons made of it. */
export interface FamilyTest extends TTest {
  /** p after Holm's correction for all comparisons of the family that could be made. */
  readonly pAdjusted: number;
  /** Number of those comparisons. */
  readonly comparisons: number;
}

/**
 * Welch's test for each of several pairs, with Holm's correction for all that could be made, so
 * that the chance of any false finding stays at 1 − confidence.
 *
 * A finding is worded with its own interval; it excludes no difference whenever the adjusted p is
 * below the level. A pair without a significant difference is worded with its Bonferroni interval
 * (joint confidence for all comparisons), which then always holds no difference: sentence, interval
 * and p never contradict each other.
 * @example
 * welchFamily([{ a: steel, b: glass }, { a: [9, 11, 12], b: [10, 13, 14] }]).map(({ reading }) => reading)
 */
export function welchFamily(questions: readonly FamilyQuestion[]): (FamilyTest | NotEstimable)[] {
  const tests = questions.map((question) => welchTest(question.a, question.b, question));
  const adjusted = adjustPValues(tests.map((test) => (test.status === "ok" ? test.p : NaN)));
  const comparisons = tests.filter(({ status }) => status === "ok").length;
  return tests.map((test, k) => {
    if (test.status !== "ok") return test;
    const pAdjusted = adjusted[k]!;
    return {
      ...test,
      pAdjusted,
      comparisons,
      assumptions: [
        ...test.assumptions,
        ...(comparisons > 1
          ? [`${counted(comparisons, "comparison")} together: Holm's correction of p`]
          : []),
      ],
      reading:
        comparisons > 1 ? readingOf(test, questions[k]!, pAdjusted, comparisons) : test.reading,
    };
  });
}

function readingOf(
  test: TTest,
  question: FamilyQuestion,
  pAdjusted: number,
  comparisons: number,
): string {
  const { quantity = "mean", nameA = "A", nameB = "B" } = question;
  const words = {
    quantity,
    nameA,
    nameB,
    confidence: test.confidence,
    p: pAdjusted,
    methodWords: "Welch t",
    comparisons,
  };
  if (pAdjusted < 1 - test.confidence) return differenceReading({ ...test, ...words });
  const joint = welchTest(question.a, question.b, {
    ...question,
    confidence: 1 - (1 - test.confidence) / comparisons,
  });
  return joint.status === "ok"
    ? differenceReading({ ...joint, ...words, joint: true })
    : test.reading;
}
