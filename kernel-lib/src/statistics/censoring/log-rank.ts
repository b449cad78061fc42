import { chiSquared } from "../distributions/chi-squared";
import { inversePositiveDefinite } from "../linear-algebra";
import { counted, pWords, significant } from "../reading";
import type { NotEstimable, NotEstimableReason } from "../result";
import { notEstimableFrom, gatherCensored } from "./censored-sample";
import type { CensoredStatement } from "./censored-words";

export interface LogRankInput {
  readonly values: ArrayLike<number>;
  readonly censored: ArrayLike<boolean | number>;
  /** Group of each row; a blank one sets the row aside. */
  readonly groups: ArrayLike<string>;
  /** Optional strata, such as the study: groups are then compared within each stratum only. */
  readonly strata?: ArrayLike<string>;
}

export interface LogRankGroup {
  readonly group: string;
  readonly n: number;
  readonly failures: number;
  /** Failures expected if all groups had the same failure rate at every load. */
  readonly expected: number;
}

export interface LogRank extends CensoredStatement {
  readonly status: "ok";
  readonly groups: readonly LogRankGroup[];
  readonly chiSquared: number;
  readonly degreesOfFreedom: number;
  readonly p: number;
}

/**
 * Log-rank test that groups share one distribution of failure values, with right-censored values.
 *
 * Chi-square = (O - E)' V^-1 (O - E) over groups - 1, with the hypergeometric variance at ties
 * (Mantel 1966). Large-sample: with few failures a permutation test is safer.
 *
 * @returns the test, or "cannot be estimated" with what is needed
 * @throws RangeError for columns of different length
 * @example logRank({ values: load, censored, groups: bar_material })
 */
export function logRank(input: LogRankInput): LogRank | NotEstimable {
  if (input.strata !== undefined && input.strata.length !== input.values.length)
    throw new RangeError(
      `Strata: got ${input.strata.length}, expected ${input.values.length}, one per value`,
    );
  const gathered = gatherCensored(
    { values: input.values, censored: input.censored, clusters: input.groups },
    null,
  );
  const label = (k: number): string => String(gathered.clusters![k]!);
  const names = [...new Set(gathered.clusters!.map(String))];
  const index = new Map(names.map((name, g) => [name, g]));
  const count = names.length;
  const observed = new Float64Array(count);
  const expected = new Float64Array(count);
  const sizes = new Float64Array(count);
  const variance = new Float64Array(count * count);
  const strata = new Map<string, number[]>();
  gathered.rows.forEach((row, k) => {
    const stratum = input.strata?.[row] ?? "";
    const members = strata.get(stratum);
    if (members === undefined) strata.set(stratum, [k]);
    else members.push(k);
    const g = index.get(label(k))!;
    sizes[g] = sizes[g]! + 1;
  });
  for (const members of strata.values()) {
    addStratum(
      members.map((k) => ({
        value: gathered.values[k]!,
        failed: gathered.sample.censored[k] === 0,
        group: index.get(label(k))!,
      })),
      count,
      observed,
      expected,
      variance,
    );
  }
  const method = `Log-rank test${input.strata === undefined ? "" : `, stratified (${strata.size} strata)`}`;
  const excluded = gathered.excluded.map((s) => ({
    row: s.row,
    reason: s.reason === "no series named" ? "no group named" : s.reason,
  }));
  const lacking = (reason: NotEstimableReason, needed: string): NotEstimable =>
    notEstimableFrom({ values: gathered.values, excluded }, method, { reason, needed });
  if (count < 2)
    return lacking("too few groups", `at least 2 groups with a usable value (there are ${count})`);
  if (gathered.failures === 0)
    return lacking("nothing failed", "a failure in this mode in at least one group");
  const statistic = quadratic(observed, expected, variance, count);
  if (statistic === null)
    return lacking(
      "too few failures",
      "for each group, a failure at a load at which at least two groups are still under test",
    );
  const df = count - 1;
  const p = chiSquared(df).upperTail(statistic);
  const warnings =
    gathered.failures < 5 * count
      ? [
          `${counted(gathered.failures, "failure")} in ${counted(count, "group")}: the chi-square is approximate below about 5 per group (common practice, no source)`,
        ]
      : [];
  return {
    status: "ok",
    method,
    assumptions: [
      "in each group, the reason for stopping a test early is independent of the load it would have reached",
      "values are independent (series effect ignored)",
    ],
    n: gathered.values.length,
    excluded,
    warnings,
    groups: names.map((group, g) => ({
      group,
      n: sizes[g]!,
      failures: observed[g]!,
      expected: expected[g]!,
    })),
    chiSquared: statistic,
    degreesOfFreedom: df,
    p,
    reading: readingOf(names, observed, expected, sizes, p),
  };
}

interface Entry {
  readonly value: number;
  readonly failed: boolean;
  readonly group: number;
}

function addStratum(
  entries: readonly Entry[],
  count: number,
  observed: Float64Array,
  expected: Float64Array,
  variance: Float64Array,
): void {
  const sorted = [...entries].sort((a, b) => a.value - b.value);
  const atRisk = new Float64Array(count);
  for (const e of sorted) atRisk[e.group] = atRisk[e.group]! + 1;
  for (let i = 0; i < sorted.length;) {
    let end = i;
    let failures = 0;
    while (end < sorted.length && sorted[end]!.value === sorted[i]!.value) {
      const e = sorted[end]!;
      if (e.failed) {
        failures += 1;
        observed[e.group] = observed[e.group]! + 1;
      }
      end += 1;
    }
    const total = sorted.length - i;
    for (let g = 0; g < count && failures > 0; g += 1) {
      const share = atRisk[g]! / total;
      expected[g] = expected[g]! + failures * share;
      if (total > 1) {
        const factor = (failures * (total - failures)) / (total - 1);
        for (let h = 0; h < count; h += 1)
          variance[g * count + h] =
            variance[g * count + h]! + factor * share * ((g === h ? 1 : 0) - atRisk[h]! / total);
      }
    }
    for (; i < end; i += 1) atRisk[sorted[i]!.group] = atRisk[sorted[i]!.group]! - 1;
  }
}

/** (O - E)' V^-1 (O - E) without the last group; null when V is singular. */
function quadratic(
  observed: Float64Array,
  expected: Float64Array,
  variance: Float64Array,
  count: number,
): number | null {
  const m = count - 1;
  const reduced = new Float64Array(m * m);
  for (let g = 0; g < m; g += 1)
    for (let h = 0; h < m; h += 1) reduced[g * m + h] = variance[g * count + h]!;
  const inverse = inversePositiveDefinite(reduced, m);
  if (inverse === null) return null;
  let sum = 0;
  for (let g = 0; g < m; g += 1)
    for (let h = 0; h < m; h += 1)
      sum += (observed[g]! - expected[g]!) * inverse[g * m + h]! * (observed[h]! - expected[h]!);
  return sum;
}

function readingOf(
  names: readonly string[],
  observed: Float64Array,
  expected: Float64Array,
  sizes: Float64Array,
  p: number,
): string {
  const counts = names
    .map(
      (name, g) =>
        `${name}: ${observed[g]!} of ${sizes[g]!} failed, ${significant(expected[g]!)} expected`,
    )
    .join("; ");
  if (p >= 0.05)
    return `No significant difference of the groups' failure loads was found (log-rank ${pWords(p)}). This does not show that they are equal (${counts}).`;
  const earliest = names
    .map((name, g) => ({ name, ratio: observed[g]! / expected[g]! }))
    .sort((a, b) => b.ratio - a.ratio)[0]!;
  return `The groups' failure loads differ (log-rank ${pWords(p)}): ${earliest.name} fails at lower loads than the other groups combined (${counts}).`;
}
