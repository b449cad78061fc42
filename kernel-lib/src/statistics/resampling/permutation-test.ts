import { createRandom } from "../random";
import { counted, pWords, significant } from "../reading";

export interface PermutationInput {
  readonly values: ArrayLike<number>;
  /** Group of each row. */
  readonly groups: ArrayLike<string>;
  /**
   * The statistic of values and group numbers (0, 1, ... in order of first appearance); both
   * buffers are reused. Default: mean of the first group less mean of the second.
   */
  readonly statistic?: (values: Float64Array, groups: Int32Array) => number;
  /** Default "two-sided": as far from 0 as observed, either way. */
  readonly alternative?: "two-sided" | "greater" | "less";
  /** Labels are exchanged only within a block, such as a study. */
  readonly blocks?: ArrayLike<string>;
  /**
   * Default 9,999; with two groups and no blocks every arrangement is tried when there are no more
   * than this.
   */
  readonly permutations?: number;
  readonly seed: number | string;
  readonly onProgress?: (share: number) => void;
}

export interface PermutationTest {
  readonly method: string;
  readonly assumptions: readonly string[];
  readonly n: number;
  readonly excluded: readonly { readonly row: number; readonly reason: string }[];
  readonly warnings: readonly string[];
  readonly reading: string;
  readonly observed: number;
  readonly p: number;
  readonly exact: boolean;
  readonly arrangements: number;
  readonly groupNames: readonly string[];
}

/**
 * Permutation test that group labels are exchangeable.
 *
 * p = share of arrangements at least as extreme as the observed one (exact), or (1 + count) / (1 +
 * B) of B random ones. A relative 1e-12 counts as a tie, so that rounding does not decide.
 *
 * @throws RangeError for fewer than two groups or columns of different length
 * @example permutationTest({ values: load, groups: bar_material, seed: 1 }).p
 */
export function permutationTest(input: PermutationInput): PermutationTest {
  const total = input.values.length;
  for (const [name, column] of [
    ["groups", input.groups],
    ["blocks", input.blocks],
  ] as const) {
    if (column !== undefined && column.length !== total)
      throw new RangeError(
        `permutationTest ${name}: got ${column.length}, expected ${total}, one per value`,
      );
  }
  const usable = (i: number): boolean => Number.isFinite(input.values[i]) && input.groups[i] !== "";
  const rows = Array.from({ length: total }, (_, i) => i).filter(usable);
  const excluded = Array.from({ length: total }, (_, i) => i)
    .filter((i) => !usable(i))
    .map((row) => ({
      row,
      reason: Number.isFinite(input.values[row]) ? "no group named" : "no finite value",
    }));
  const groupNames = [...new Set(rows.map((i) => input.groups[i]!))];
  const customary = input.statistic === undefined;
  if (groupNames.length < 2 || (customary && groupNames.length !== 2))
    throw new RangeError(
      `permutationTest: got ${groupNames.length} groups, expected ${customary ? "2 for the difference of means" : "at least 2"}`,
    );
  const values = Float64Array.from(rows, (i) => input.values[i]!);
  const labels = Int32Array.from(rows, (i) => groupNames.indexOf(input.groups[i]!));
  const statistic = input.statistic ?? differenceOfMeans;
  const observed = statistic(values, labels);
  if (!Number.isFinite(observed))
    throw new RangeError(
      `permutationTest: the statistic of the data is ${observed}, expected a finite number`,
    );
  const extreme = extremeBy(input.alternative ?? "two-sided", observed);
  const permutations = input.permutations ?? 9999;
  const size = labels.filter((g) => g === 0).length;
  const ways =
    groupNames.length === 2 && input.blocks === undefined
      ? combinations(labels.length, size)
      : Infinity;
  const exact = ways <= permutations + 1;
  const p = exact
    ? exactShare(values, size, statistic, extreme) / ways
    : (1 +
        randomShare({
          ...input,
          values,
          statistic,
          permutations,
          extreme,
          labels,
          blocks: blockRows(rows, input.blocks),
        })) /
      (1 + permutations);
  const arrangements = exact ? ways : permutations;
  const what = customary
    ? `${groupNames[0]!} less ${groupNames[1]!}: difference of means ${significant(observed)}`
    : `statistic ${significant(observed)}`;
  const basis = `${counted(values.length, "value")}, ${exact ? "all" : "random"} ${arrangements} arrangements, ${pWords(p)}`;
  return {
    method: `Permutation test, ${input.alternative ?? "two-sided"}, ${exact ? "exact" : `${permutations} random arrangements, seed ${String(input.seed)}`}${input.blocks === undefined ? "" : ", within blocks"}`,
    assumptions: [
      "under the null hypothesis the labels are exchangeable (which includes equal scatter)",
    ],
    n: values.length,
    excluded,
    observed,
    p,
    exact,
    arrangements,
    groupNames,
    warnings:
      exact && ways < 20
        ? [`Only ${ways} arrangements exist: no p-value below ${significant(1 / ways)} is possible`]
        : [],
    reading:
      p < 0.05
        ? `The groups differ significantly under exchange of labels (${what}; ${basis}).`
        : `No significant difference between the groups was found (${what}; ${basis}), which does not show that they are the same.`,
  };
}

function differenceOfMeans(values: Float64Array, groups: Int32Array): number {
  let first = 0;
  let second = 0;
  let count = 0;
  for (let i = 0; i < values.length; i += 1) {
    if (groups[i] === 0) {
      first += values[i]!;
      count += 1;
    } else second += values[i]!;
  }
  return first / count - second / (values.length - count);
}

function extremeBy(
  alternative: "two-sided" | "greater" | "less",
  observed: number,
): (t: number) => boolean {
  const slack = 1e-12 * Math.abs(observed);
  if (alternative === "greater") return (t) => t >= observed - slack;
  if (alternative === "less") return (t) => t <= observed + slack;
  return (t) => Math.abs(t) >= Math.abs(observed) - slack;
}

function combinations(n: number, k: number): number {
  let ways = 1;
  for (let i = 1; i <= k; i += 1) ways = (ways * (n - k + i)) / i;
  return Math.round(ways);
}

/** Number of arrangements of the first group's labels that are as extreme. */
function exactShare(
  values: Float64Array,
  size: number,
  statistic: (values: Float64Array, groups: Int32Array) => number,
  extreme: (t: number) => boolean,
): number {
  const n = values.length;
  const chosen = Array.from({ length: size }, (_, i) => i);
  const groups = new Int32Array(n);
  let count = 0;
  for (;;) {
    groups.fill(1);
    for (const i of chosen) groups[i] = 0;
    if (extreme(statistic(values, groups))) count += 1;
    let k = size - 1;
    while (k >= 0 && chosen[k] === n - size + k) k -= 1;
    if (k < 0) return count;
    chosen[k] = chosen[k]! + 1;
    for (let j = k + 1; j < size; j += 1) chosen[j] = chosen[j - 1]! + 1;
  }
}

interface RandomArrangements {
  readonly values: Float64Array;
  readonly labels: Int32Array;
  readonly blocks: readonly Int32Array[];
  readonly permutations: number;
  readonly seed: number | string;
  readonly statistic: (values: Float64Array, groups: Int32Array) => number;
  readonly extreme: (t: number) => boolean;
  readonly onProgress?: (share: number) => void;
}

function randomShare(question: RandomArrangements): number {
  const random = createRandom(question.seed).fork("permutation");
  const groups = Int32Array.from(question.labels);
  const stride = Math.ceil(question.permutations / 100);
  let count = 0;
  for (let b = 1; b <= question.permutations; b += 1) {
    for (const block of question.blocks) {
      for (let i = block.length - 1; i > 0; i -= 1) {
        const j = random.integer(i + 1);
        const kept = groups[block[i]!]!;
        groups[block[i]!] = groups[block[j]!]!;
        groups[block[j]!] = kept;
      }
    }
    if (question.extreme(question.statistic(question.values, groups))) count += 1;
    if (question.onProgress !== undefined && (b % stride === 0 || b === question.permutations))
      question.onProgress(b / question.permutations);
  }
  return count;
}

function blockRows(rows: readonly number[], blocks: ArrayLike<string> | undefined): Int32Array[] {
  const lists = new Map<string, number[]>();
  rows.forEach((row, k) => {
    const label = blocks?.[row] ?? "";
    const list = lists.get(label);
    if (list === undefined) lists.set(label, [k]);
    else list.push(k);
  });
  return [...lists.values()].map((list) => Int32Array.from(list));
}
