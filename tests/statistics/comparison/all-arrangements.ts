/* Two-sided p-values by listing every arrangement, to hold the clever ways against. */

function subsets(n: number, k: number): number[][] {
  if (k === 0) return [[]];
  if (n < k) return [];
  return [...subsets(n - 1, k), ...subsets(n - 1, k - 1).map((set) => [...set, n - 1])];
}

export function bruteForceRankP(x: number[], y: number[]): number {
  const pool = [...x, ...y];
  const u = (inB: number[]): number => {
    const outside = pool.map((_, i) => i).filter((i) => !inB.includes(i));
    return inB.reduce(
      (sum, i) =>
        sum +
        outside.reduce(
          (s, j) => s + (pool[i]! > pool[j]! ? 1 : pool[i]! === pool[j]! ? 0.5 : 0),
          0,
        ),
      0,
    );
  };
  const observed = u(y.map((_, i) => x.length + i));
  const values = subsets(pool.length, y.length).map(u);
  const below = values.filter((value) => value <= observed).length;
  const above = values.filter((value) => value >= observed).length;
  return Math.min(1, (2 * Math.min(below, above)) / values.length);
}

export function bruteForceMeanP(x: number[], y: number[]): number {
  const pool = [...x, ...y];
  const total = pool.reduce((s, v) => s + v, 0);
  const difference = (inB: number[]): number => {
    const sum = inB.reduce((s, i) => s + pool[i]!, 0);
    return Math.abs(sum / y.length - (total - sum) / x.length);
  };
  const observed = difference(y.map((_, i) => x.length + i));
  const values = subsets(pool.length, y.length).map(difference);
  return values.filter((value) => value >= observed - 1e-9).length / values.length;
}
