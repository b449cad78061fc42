import { pWords, significant } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable } from "../result";
import { sampleQuantile } from "../sample/quantiles";
import { normalIntegral } from "../special/normal-integral";
import { midranks, rankSumProbabilities } from "./rank-sum-counts";
import type { ComparisonNames } from "./two-samples";
import { twoSamples } from "./two-samples";

/** Outcome of the Mann–Whitney test. */
export interface MannWhitneyTest extends Account {
  status: "ok";
  /** Number of pairs (a, b) with b > a, ties counted half. */
  u: number;
  /** U/(n_A n_B): the chance that a value of B exceeds one of A. */
  probabilityOfExceeding: number;
  /** Hodges–Lehmann shift: median of all differences b − a. */
  shift: number;
  /** Two-sided. */
  p: number;
  exact: boolean;
}

/**
 * Mann–Whitney (Wilcoxon rank-sum) test of two samples, two-sided.
 *
 * Exact for up to 60 values in all, also with ties (given the ties); beyond, the normal
 * approximation with correction for ties and continuity. Two-sided p is twice the smaller tail.
 */
export function mannWhitney(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  options: ComparisonNames & { level?: number } = {},
): MannWhitneyTest | NotEstimable {
  const { level = 0.05, nameA = "A", nameB = "B" } = options;
  const method = "Mann-Whitney test";
  const samples = twoSamples(a, b, method, "mannWhitney");
  if ("status" in samples) return samples;
  const nA = samples.a.length;
  const nB = samples.b.length;
  const ranks = midranks([...samples.a, ...samples.b]);
  if (ranks.every((rank) => rank === ranks[0]))
    return notEstimable(method, "no spread", "values that differ", nA + nB, samples.excluded);
  const rankSumB = ranks.slice(nA).reduce((sum, rank) => sum + rank, 0);
  const u = rankSumB - (nB * (nB + 1)) / 2;
  const exact = nA + nB <= 60;
  const p = exact ? exactP(ranks, nB, rankSumB) : approximateP(ranks, nA, nB, u);
  const differences = samples.b.flatMap((y) => samples.a.map((x) => y - x));
  const shift = sampleQuantile(differences, 0.5, "type 7: spreadsheet and R default")!;
  const share = u / (nA * nB);
  // The least p that any outcome could give shows whether a significant difference was possible at
  // all.
  const leastP = exact
    ? exactP(
        ranks,
        nB,
        ranks
          .slice()
          .sort((x, y) => x - y)
          .slice(nA)
          .reduce((s, r) => s + r, 0),
      )
    : 0;
  return {
    status: "ok",
    method,
    u,
    probabilityOfExceeding: share,
    shift,
    p,
    exact,
    n: nA + nB,
    excluded: samples.excluded,
    assumptions: ["values independent", "for the shift: populations of the same shape"],
    reading:
      p < level
        ? `Values of ${nameB} tend to be ${share < 0.5 ? "lower" : "higher"} than those of ${nameA} (shift ${significant(shift)}, ${method}${exact ? ", exact" : ""}, ${pWords(p)}).`
        : `No significant difference between ${nameB} and ${nameA} was found (shift ${significant(shift)}, ${method}${exact ? ", exact" : ""}, ${pWords(p)})${leastP >= level ? `; with ${nA} and ${nB} values no outcome could be significant (lowest possible ${pWords(leastP)})` : "; a shift of either sign is possible, see the interval of the means"}.`,
  };
}

function exactP(ranks: readonly number[], size: number, rankSum: number): number {
  const probabilities = rankSumProbabilities(
    ranks.map((rank) => Math.round(2 * rank)),
    size,
  );
  const at = Math.round(2 * rankSum);
  let below = 0;
  let above = 0;
  probabilities.forEach((probability, s) => {
    if (s <= at) below += probability;
    if (s >= at) above += probability;
  });
  return Math.min(1, 2 * Math.min(below, above));
}

function approximateP(ranks: readonly number[], nA: number, nB: number, u: number): number {
  const n = nA + nB;
  const counts = new Map<number, number>();
  for (const rank of ranks) counts.set(rank, (counts.get(rank) ?? 0) + 1);
  const ties = [...counts.values()].reduce((sum, count) => sum + count ** 3 - count, 0);
  const sd = Math.sqrt(((nA * nB) / 12) * (n + 1 - ties / (n * (n - 1))));
  const z = Math.max(0, Math.abs(u - (nA * nB) / 2) - 0.5) / sd;
  return Math.min(1, 2 * normalIntegral(-z));
}
