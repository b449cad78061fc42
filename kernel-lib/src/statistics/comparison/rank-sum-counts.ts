/**
 * Null distribution of the rank sum of `size` members among all, given the ranks doubled (whole
 * numbers even with ties): probabilities of each sum, every choice equally likely. Exact, by
 * recursion over the members.
 */
export function rankSumProbabilities(doubledRanks: readonly number[], size: number): Float64Array {
  const total = doubledRanks.reduce((sum, rank) => sum + rank, 0);
  // ways[k][s]: number of choices of k members with doubled rank sum s.
  const ways = Array.from({ length: size + 1 }, () => new Float64Array(total + 1));
  ways[0]![0] = 1;
  doubledRanks.forEach((rank, seen) => {
    for (let k = Math.min(size, seen + 1); k >= 1; k--) {
      const to = ways[k]!;
      const from = ways[k - 1]!;
      for (let s = rank; s <= total; s++) to[s]! += from[s - rank]!;
    }
  });
  const counts = ways[size]!;
  const all = counts.reduce((sum, count) => sum + count, 0);
  return counts.map((count) => count / all);
}

/** Ranks from 1, ties given their mean rank. */
export function midranks(values: readonly number[]): number[] {
  const order = values.map((value, index) => ({ value, index })).sort((a, b) => a.value - b.value);
  const ranks = new Array<number>(values.length).fill(0);
  for (let i = 0; i < order.length;) {
    let j = i;
    while (j + 1 < order.length && order[j + 1]!.value === order[i]!.value) j += 1;
    for (let k = i; k <= j; k++) ranks[order[k]!.index] = (i + j) / 2 + 1;
    i = j + 1;
  }
  return ranks;
}
