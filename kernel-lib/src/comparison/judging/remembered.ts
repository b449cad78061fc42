import { createHash } from "node:crypto";

/** Larger questions are not kept: their answers hold a number for each test. */
const MOST_TESTS = 5000;

/** Answers kept; the oldest goes first. */
const MOST_ANSWERS = 1000;

/**
 * A pure function of tests that keeps its last answers by the content of the question: the same
 * groups are judged again in tables, figures, findings, proposals and packets, and a fit with lower
 * bounds takes most of their time. The numbers of a question are finite, but for a blank diameter
 * (NaN), which stands for one thing only, so no two different questions share a key.
 * @param work the function; what it gives must not be changed by anybody
 * @example
 * const total = remembered((tests: readonly number[], factor: number) => tests.length * factor);
 * total([1, 2], 3) // 6
 */
export function remembered<T, A extends readonly unknown[], R>(
  work: (tests: readonly T[], ...more: A) => R,
): (tests: readonly T[], ...more: A) => R {
  const answers = new Map<string, R>();
  return (tests, ...more) => {
    if (tests.length > MOST_TESTS) return work(tests, ...more);
    // Of a question only its digest is kept, so that a thousand of them weigh little.
    const key = createHash("sha256")
      .update(JSON.stringify([tests, more]))
      .digest("base64");
    if (answers.has(key)) return answers.get(key) as R;
    const answer = work(tests, ...more);
    answers.set(key, answer);
    if (answers.size > MOST_ANSWERS) answers.delete(answers.keys().next().value!);
    return answer;
  };
}
