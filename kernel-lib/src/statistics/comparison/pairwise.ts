import { studentizedRange } from "../distributions/studentized-range";
import { counted, percent, significant } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable } from "../result";
import { differenceReading } from "./difference-words";
import { fiellerInterval } from "./ratio-interval";
import type { Group, NamedSamples } from "./several-samples";
import { severalSamples } from "./several-samples";

/** One pair of groups: difference second − first with its simultaneous interval. */
export interface PairDifference {
  first: string;
  second: string;
  difference: number;
  lower: number;
  upper: number;
  degreesOfFreedom: number;
  /** Adjusted for all pairs. */
  p: number;
  reading: string;
}

/** All pairs of groups with simultaneous confidence. */
export interface PairwiseComparison extends Account {
  status: "ok";
  pairs: readonly PairDifference[];
  confidence: number;
}

/** Tukey's (Tukey–Kramer's for unequal n) comparison of all pairs; equal variances assumed. */
export function tukeyComparison(
  samples: NamedSamples,
  confidence: number = 0.95,
): PairwiseComparison | NotEstimable {
  const method = "Tukey's comparison of all pairs";
  const data = severalSamples(samples, method);
  if ("status" in data) return data;
  const { groups, n, excluded } = data;
  const degreesOfFreedom = n - groups.length;
  const pooled = groups.reduce((sum, group) => sum + group.squares, 0) / degreesOfFreedom;
  const law = studentizedRange(groups.length, degreesOfFreedom);
  const q = law.upperQuantile(1 - confidence);
  return build(
    method,
    "Tukey",
    groups,
    n,
    excluded,
    confidence,
    ["values independent", "every group normal with the same variance"],
    (a, b) => ({
      shareA: pooled / a.n,
      shareB: pooled / b.n,
      degreesOfFreedom,
      tail: (x: number): number => law.upperTail(x),
      q,
    }),
  );
}

/**
 * Games–Howell comparison of all pairs: Welch's degrees of freedom a pair, variances not assumed
 * equal.
 */
export function gamesHowellComparison(
  samples: NamedSamples,
  confidence: number = 0.95,
): PairwiseComparison | NotEstimable {
  const method = "Games-Howell comparison of all pairs";
  const data = severalSamples(samples, method);
  if ("status" in data) return data;
  const { groups, n, excluded } = data;
  if (groups.filter((group) => group.squares === 0).length > 1)
    return notEstimable(
      method,
      "no spread",
      "values that differ in all groups but one",
      n,
      excluded,
    );
  return build(
    method,
    "Games-Howell",
    groups,
    n,
    excluded,
    confidence,
    ["values independent", "every group normal"],
    (a, b) => {
      const shareA = a.variance / a.n;
      const shareB = b.variance / b.n;
      const degreesOfFreedom =
        (shareA + shareB) ** 2 / (shareA ** 2 / (a.n - 1) + shareB ** 2 / (b.n - 1));
      const law = studentizedRange(groups.length, degreesOfFreedom);
      return {
        shareA,
        shareB,
        degreesOfFreedom,
        tail: (x: number): number => law.upperTail(x),
        q: law.upperQuantile(1 - confidence),
      };
    },
  );
}

interface PairBasis {
  shareA: number;
  shareB: number;
  degreesOfFreedom: number;
  tail: (q: number) => number;
  q: number;
}

function build(
  method: string,
  short: string,
  groups: readonly Group[],
  n: number,
  excluded: Account["excluded"],
  confidence: number,
  assumptions: string[],
  basisOf: (a: Group, b: Group) => PairBasis,
): PairwiseComparison {
  const count = (groups.length * (groups.length - 1)) / 2;
  const pairs = groups.flatMap((a, i) =>
    groups.slice(i + 1).map((b): PairDifference => {
      const { shareA, shareB, degreesOfFreedom, tail, q } = basisOf(a, b);
      const difference = b.mean - a.mean;
      const scale = Math.sqrt((shareA + shareB) / 2);
      const p = tail(Math.abs(difference) / scale);
      const lower = difference - q * scale;
      const upper = difference + q * scale;
      const positive = a.mean > 0 && b.mean > 0;
      return {
        first: a.name,
        second: b.name,
        difference,
        lower,
        upper,
        degreesOfFreedom,
        p,
        reading: differenceReading({
          quantity: "mean",
          nameA: a.name,
          nameB: b.name,
          difference,
          lower,
          upper,
          confidence,
          p,
          ratio: positive ? b.mean / a.mean : null,
          ratioInterval: positive
            ? fiellerInterval(a.mean, b.mean, shareA, shareB, q / Math.SQRT2)
            : null,
          methodWords: short,
          comparisons: count,
          adjustment: "adjusted",
          joint: true,
        }),
      };
    }),
  );
  const told = pairs.filter((pair) => pair.p < 1 - confidence);
  const widest = pairs.reduce(
    (a, pair) => Math.max(a, Math.abs(pair.lower), Math.abs(pair.upper)),
    0,
  );
  return {
    status: "ok",
    method,
    assumptions,
    n,
    excluded,
    pairs,
    confidence,
    reading:
      told.length > 0
        ? `${told.length} of ${counted(count, "pair")} of means ${told.length === 1 ? "differs" : "differ"} significantly at ${percent(confidence)} joint confidence: ${told.map((pair) => `${pair.first} and ${pair.second}`).join("; ")}.`
        : `No pair of means differs significantly at ${percent(confidence)} joint confidence; differences up to ${significant(widest)} are possible.`,
  };
}
