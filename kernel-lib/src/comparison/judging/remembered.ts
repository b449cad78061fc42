/** Larger questions are not kept: their keys would weigh more than the answers are worth. */
const MOST_TESTS = 5000;

/** Answers kept; the oldest goes first. */
const MOST_ANSWERS = 1000;

/**
 * A pure function of tests that keeps its last answers by the content of the question: the same
 * groups are judged again in tables, figures, findings, proposals and packets, and a fit with lower
 * bounds takes most of their time. NaN in a question is no reason to compute again, since it reads
 * as null on both sides.
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
    const key = JSON.stringify([tests, more]);
    if (answers.has(key)) return answers.get(key) as R;
    const answer = work(tests, ...more);
    answers.set(key, answer);
    if (answers.size > MOST_ANSWERS) answers.delete(answers.keys().next().value!);
    return answer;
  };
}
