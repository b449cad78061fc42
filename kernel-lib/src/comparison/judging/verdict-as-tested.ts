import type { Bounds } from "./as-tested";
import type { Question, Verdict } from "./question";
import {
  boundsWords,
  criterionWords,
  neededWords,
  ratioWords,
  withHiddenScatter,
  type GroupFacts,
} from "./reasons";

/**
 * The verdict for the bars, concrete and adhesive of these series: `meets` where the lower bound of
 * the fractile is at least the target, `falls short` where the upper bound is below it, else
 * `undecided`.
 */
export function verdictAsTested(bounds: Bounds, question: Question, facts: GroupFacts): Verdict {
  if ("refusal" in bounds)
    return {
      verdict: "too few tests",
      fractile: null,
      lower: null,
      upper: null,
      reason: `${bounds.refusal}.`,
    };
  const { fractile, lower, upper } = bounds;
  const { target } = question;
  const all = { fractile, lower, upper };
  const basis = `${facts.n} failures, series effect ignored; ${facts.criterion}`;
  if (lower >= target)
    return withHiddenScatter(
      {
        verdict: "meets",
        ...all,
        reason: `r_k = ${ratioWords(lower, target)} ≥ ${target.toFixed(1)} (${basis}).`,
      },
      facts,
    );
  if (upper < target)
    return {
      verdict: "falls short",
      ...all,
      reason: `the upper bound of the ${criterionWords(question)}, ${ratioWords(upper, target)}, is below ${target.toFixed(1)} (${basis}).`,
    };
  return {
    verdict: "undecided",
    ...all,
    reason: `${boundsWords(all, question)} (${basis}). ${neededWords(all, target, facts.n, "tests")}`,
  };
}
