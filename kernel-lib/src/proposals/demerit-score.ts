/** One class of the score: ratios from `from` up to the next class's, and its penalty. */
export interface DemeritClass {
  readonly from: number;
  readonly points: number;
  readonly says: string;
}

/**
 * Penalties by range of test/predicted after M. P. Collins, "Evaluation of shear design procedures
 * for concrete structures", a report for a code committee, 2001. From memory, to be checked against
 * the paper: some authors print
 * 0.67 where 0.65 stands here, and the wording is ours. A ratio on a limit belongs to the class
 * above it.
 */
export const DEMERIT_CLASSES: readonly DemeritClass[] = [
  { from: 0, points: 10, says: "extremely dangerous" },
  { from: 0.5, points: 5, says: "dangerous" },
  { from: 0.65, points: 2, says: "low safety" },
  { from: 0.85, points: 0, says: "appropriate safety" },
  { from: 1.3, points: 1, says: "conservative" },
  { from: 2, points: 2, says: "extremely conservative" },
];

/** What stands under every table that shows the score. */
export const DEMERIT_NOTE =
  "Demerit score: percentage of the tests in each range of test/predicted times the penalty of the range, summed (0 best, 1000 worst); classes and penalties after Collins 2001, from memory, to be checked against the paper. It ranks provisions on the same tests by safety and economy together. It is not a measure of safety, ignores scatter and loads, and excludes tests that are lower bounds.";

/** The score of one group with the share of each class. */
export interface DemeritScore {
  readonly status: "scored" | "cannot be estimated";
  /** Tests scored. */
  readonly n: number;
  /** Lower bounds left out: the class of such a test is not known. */
  readonly lowerBounds: number;
  /** Σ (share in %) × points; null without tests. */
  readonly score: number | null;
  readonly classes: readonly (DemeritClass & { readonly count: number; readonly share: number })[];
  readonly reading: string;
}

/**
 * Demerit score of a provision on a set of tests: Σ over classes of 100 n_class / n × points, from
 * 0 (every ratio in the class without penalty) to 1000 (every ratio in the worst). The ratios are
 * to be test over predicted without reduction factors; with nominal capacities, which hold a margin
 * already, the conservative classes fill.
 *
 * @param ratios test/predicted, or a value with `bound` where it is a lower bound only
 * @param classes other limits or penalties, sorted by `from`, the first from 0
 * @throws RangeError for a ratio that is not above zero, or classes that do not rise from 0
 * @example demeritScore([{ ratio: 0.8, bound: false }, { ratio: 1.1, bound: false }]).score // 100
 */
export function demeritScore(
  ratios: readonly { readonly ratio: number; readonly bound: boolean }[],
  classes: readonly DemeritClass[] = DEMERIT_CLASSES,
): DemeritScore {
  if (
    classes[0]?.from !== 0 ||
    classes.some(({ from }, k) => k > 0 && !(from > (classes[k - 1]?.from ?? Infinity)))
  )
    throw new RangeError(
      `demeritScore: the classes begin at ${classes.map(({ from }) => from).join(", ")}, expected rising limits from 0`,
    );
  const wrong = ratios.find(({ ratio }) => !(ratio > 0 && Number.isFinite(ratio)));
  if (wrong)
    throw new RangeError(`demeritScore: a ratio is ${wrong.ratio}, expected positive numbers`);
  const scored = ratios.filter(({ bound }) => !bound);
  const [n, lowerBounds] = [scored.length, ratios.length - scored.length];
  const counted = classes.map((one, k) => {
    const count = scored.filter(
      ({ ratio }) => ratio >= one.from && ratio < (classes[k + 1]?.from ?? Infinity),
    ).length;
    return { ...one, count, share: n === 0 ? 0 : count / n };
  });
  const left =
    lowerBounds > 0
      ? ` ${lowerBounds} ${lowerBounds === 1 ? "lower bound is" : "lower bounds are"} left out.`
      : "";
  if (n === 0)
    return {
      status: "cannot be estimated",
      n,
      lowerBounds,
      score: null,
      classes: counted,
      reading: `No demerit score: no test failed in the mode.${left}`,
    };
  const score = (100 * counted.reduce((sum, { count, points }) => sum + count * points, 0)) / n;
  const charged = counted
    .filter(({ count, points }) => count > 0 && points > 0)
    .map(({ count, says }) => `${count} ${says}`);
  return {
    status: "scored",
    n,
    lowerBounds,
    score,
    classes: counted,
    reading: `Demerit score ${score.toFixed(0)} of ${n} tests (${charged.length > 0 ? charged.join(", ") : "no demerit points"}).${left}`,
  };
}
