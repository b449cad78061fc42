import type { CodeDefinition } from "../../provisions";

/** The family of distributions that test-to-predicted ratios are judged by. */
export type Distribution = "normal" | "lognormal";

/** What is asked of a group of ratios. */
export interface Question {
  /** Fractile compared with the target; 0.05 by default. */
  readonly fractile: number;
  /** One-sided confidence of each bound; 0.90 by default. */
  readonly confidence: number;
  readonly distribution: Distribution;
  /** Ratio that the fractile must reach; 1 by default. */
  readonly target: number;
}

/** The words of a verdict. */
export type VerdictWord =
  "meets" | "falls short" | "undecided" | "too few tests" | "too few series" | "no criterion";

/** A verdict with the numbers it rests on; null where they cannot be estimated. */
export interface Verdict {
  readonly verdict: VerdictWord;
  /** Median estimate of the fractile. */
  readonly fractile: number | null;
  /** Lower one-sided bound of the fractile: the characteristic ratio. */
  readonly lower: number | null;
  /** Upper one-sided bound of the fractile. */
  readonly upper: number | null;
  readonly reason: string;
}

/**
 * Share of the stated error that the upper bound in general is given, found by simulation
 * (`boundsInGeneral`).
 */
export const UPPER_SHARE = 0.8;

/**
 * Families whose own rules take logarithms: EN 1990 Annex D, and the fib model codes that follow
 * it.
 */
const LOGNORMAL = /^(en19|fib-)/;

/**
 * The distribution that the rules of a code's family assume for test results: normal in the
 * American evaluation practice of anchors (mean less K times SD; ACI 355.4, from memory, to be
 * checked against a licensed copy), lognormal in EN 1990 Annex D.8.
 * @example distributionOfCode(code("en1992-4-2018")) // "lognormal"
 */
export function distributionOfCode({ id }: Pick<CodeDefinition, "id">): Distribution {
  return LOGNORMAL.test(id) ? "lognormal" : "normal";
}
