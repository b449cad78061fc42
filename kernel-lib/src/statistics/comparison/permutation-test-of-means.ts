import { pWords, significant } from "../reading";
import { createRandom } from "../random";
import type { Account, CannotTell } from "../result";
import type { ComparisonNames } from "./two-samples";
import { twoSamples } from "./two-samples";

/** Outcome of the permutation test of two means. */
export interface PermutationTestOfMeans extends Account {
  status: "ok";
  /** mean B − mean A. */
  difference: number;
  /** Two-sided. */
  p: number;
  /** True where every arrangement was counted. */
  exact: boolean;
  arrangements: number;
  /** Standard error of a sampled p; 0 where exact. */
  standardErrorOfP: number;
}

/**
 * Permutation test of the difference of two means, two-sided: the share of arrangements of the values over the
 * two samples whose difference is at least as large.
 *
 * Exact while there are no more than 50,000 arrangements, else `arrangements` random ones (default 9999) from the
 * seed, with p = (count + 1)/(arrangements + 1).
 */
export function permutationTestOfMeans(
  a: ArrayLike<number>, b: ArrayLike<number>,
  options: ComparisonNames & { level?: number; arrangements?: number; seed?: number | string } = {},
): PermutationTestOfMeans | CannotTell {
  const { level = 0.05, nameA = "A", nameB = "B", quantity = "mean", seed = "permutation test" } = options;
  const method = "Permutation test of the difference of means";
  const samples = twoSamples(a, b, method, "permutationTestOfMeans");
  if ("status" in samples) return samples;
  const pool = Float64Array.from([...samples.a, ...samples.b]);
  const size = samples.b.length;
  const total = pool.reduce((sum, value) => sum + value, 0);
  const centre = (total * size) / pool.length;
  const observed = Math.abs(samples.b.reduce((sum, value) => sum + value, 0) - centre);
  // Sums that differ by rounding alone count as equal.
  const threshold = observed - 1e-12 * pool.reduce((sum, value) => sum + Math.abs(value), 0);
  const possible = combinations(pool.length, size);
  const exact = possible <= 50_000;
  const arrangements = exact ? possible : options.arrangements ?? 9999;
  const count = exact ? countAll(pool, size, centre, threshold) : countSome(pool, size, centre, threshold, arrangements, seed);
  const p = exact ? count / arrangements : (count + 1) / (arrangements + 1);
  const difference = samples.meanB - samples.meanA;
  const how = exact ? `all ${arrangements} arrangements` : `${arrangements} random arrangements`;
  return {
    status: "ok", method, difference, p, exact, arrangements, n: pool.length, setAside: samples.setAside,
    standardErrorOfP: exact ? 0 : Math.sqrt((p * (1 - p)) / arrangements),
    assumptions: ["values independent", "under no effect, values of both samples exchangeable"],
    reading: p < level
      ? `The ${quantity} of ${nameB} is ${difference < 0 ? "lower" : "higher"} than that of ${nameA} by ${significant(Math.abs(difference))} (permutation test over ${how}, ${pWords(p)}).`
      : `No significant difference in ${quantity} between ${nameB} and ${nameA} was found (difference ${significant(difference)}, permutation test over ${how}, ${pWords(p)})${exact && 2 / arrangements >= level ? "; so few values could not show any difference" : "; a difference can remain, see its interval"}.`,
  };
}

function combinations(n: number, k: number): number {
  let result = 1;
  for (let i = 1; i <= k && result < 1e12; i++) result = Math.round((result * (n - k + i)) / i);
  return result;
}

function countAll(pool: Float64Array, size: number, centre: number, threshold: number): number {
  let count = 0;
  const choose = (from: number, left: number, sum: number): void => {
    if (left === 0) {
      if (Math.abs(sum - centre) >= threshold) count += 1;
      return;
    }
    for (let i = from; i <= pool.length - left; i++) choose(i + 1, left - 1, sum + pool[i]!);
  };
  choose(0, size, 0);
  return count;
}

function countSome(pool: Float64Array, size: number, centre: number, threshold: number, arrangements: number, seed: number | string): number {
  const random = createRandom(seed);
  const values = Float64Array.from(pool);
  let count = 0;
  for (let k = 0; k < arrangements; k++) {
    let sum = 0;
    for (let i = 0; i < size; i++) {
      const j = i + random.integer(values.length - i);
      const kept = values[i]!;
      values[i] = values[j]!;
      values[j] = kept;
      sum += values[i]!;
    }
    if (Math.abs(sum - centre) >= threshold) count += 1;
  }
  return count;
}
