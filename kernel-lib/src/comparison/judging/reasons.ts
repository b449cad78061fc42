import { percent } from "../../statistics/reading";
import type { Question, Verdict } from "./question";

/** What the sentences of a group's verdicts need to know of it. */
export interface GroupFacts {
  /** Tests that failed in the mode. */
  readonly n: number;
  /** Least ratio of them. */
  readonly min: number | null;
  /** "ACI 318-19, nominal level". */
  readonly criterion: string;
  readonly cellColumns: readonly string[];
  /** Rows that are means of several specimens without a reported SD. */
  readonly meansWithoutSd: number;
}

/** A ratio to two decimals, or as many as put it on its own side of the target. */
export function ratioWords(value: number, target: number): string {
  for (let decimals = 2; decimals < 12; decimals += 1) {
    const text = value.toFixed(decimals);
    if (Number(text) >= target === value >= target) return text;
  }
  return String(value);
}

interface Bounded {
  readonly fractile: number;
  readonly lower: number;
  readonly upper: number;
}

/** "5 % fractile". */
export function criterionWords({ fractile }: Question): string {
  return `${percent(fractile)} fractile`;
}

/**
 * The bounds of an undecided group: both one-sided bounds at the stated confidence enclose the
 * target.
 */
export function boundsWords({ lower, upper }: Bounded, question: Question): string {
  return `the bounds of the ${criterionWords(question)}, ${ratioWords(lower, question.target)} and ${ratioWords(upper, question.target)}, enclose ${question.target.toFixed(1)}`;
}

/**
 * How many series or tests would decide, if the estimate stays where it is: the distance from the
 * estimate to the bound shrinks as one over the root of their number. A guide for planning, not a
 * promise.
 */
export function neededWords(
  { fractile, lower, upper }: Bounded,
  target: number,
  now: number,
  unit: "series" | "tests",
): string {
  const [distance, room] =
    fractile >= target
      ? [fractile - lower, fractile - target]
      : [upper - fractile, target - fractile];
  if (room < 0.01 * target)
    return `The estimate, ${ratioWords(fractile, target)}, is too close to ${target.toFixed(1)} for more ${unit} to give a verdict.`;
  const needed = Math.ceil(now * (distance / room) ** 2);
  const side = fractile >= target ? "meets" : "falls short";
  return needed > 100
    ? `The estimate is ${ratioWords(fractile, target)}; more than 100 ${unit} (now ${now}) would be needed for a verdict.`
    : `The estimate is ${ratioWords(fractile, target)}; about ${needed} ${unit} (now ${now}) would show that it ${side}, if the estimate holds.`;
}

/**
 * Means of specimens whose own scatter is not reported can show a shortfall, but never that a
 * criterion is met.
 */
export function withHiddenScatter<V extends Verdict>(
  verdict: V,
  { meansWithoutSd }: GroupFacts,
): V {
  if (meansWithoutSd === 0) return verdict;
  const rows = meansWithoutSd === 1 ? "1 row is a mean" : `${meansWithoutSd} rows are means`;
  return {
    ...verdict,
    verdict: "undecided",
    reason: `the scatter of single tests is not reported: ${rows} of several specimens without an SD, so that ${verdict.reason}`,
  };
}
