import { testsOfGroup, type Comparison, type Evidence } from "../../comparison";
import { boundsAsTested } from "../../comparison/judging/as-tested";

/** What is left out in turn. */
export type LeftOutUnit = "series" | "study" | "laboratory" | "bar size";

const COLUMN_OF: Readonly<Record<LeftOutUnit, string>> = {
  series: "series_id",
  study: "study_id",
  laboratory: "laboratory",
  "bar size": "bar_size",
};

/** A factor derived without one part of the evidence, and judged on that part. */
export interface LeftOut {
  readonly unit: LeftOutUnit;
  readonly left: string;
  /** The factor from the rest, not rounded and not above 1; null where the rest gives none. */
  readonly factor: number | null;
  /** Whether the proposed factor is no larger; null where the rest gives none. */
  readonly adequate: boolean | null;
  /**
   * The part left out, judged with the factor from the rest: failures, those below the changed
   * capacity, and the estimated 5 % fractile of test over changed capacity (null with fewer than 3
   * failures).
   */
  readonly n: number;
  readonly below: number | null;
  readonly fractile: number | null;
}

/**
 * Leaves out each series, study, laboratory or bar size in turn: the factor is derived without it and judged
 * on it, since deriving and judging on the same tests flatters a factor. Nothing where there is
 * only one.
 * @param derive the factor from what remains, not rounded
 */
export function leaveOut(
  comparison: Comparison,
  evidence: readonly Evidence[],
  unit: LeftOutUnit,
  proposed: number | null,
  derive: (rest: readonly Evidence[], without: ReadonlySet<number>) => number | null,
  question: {
    readonly fractile: number;
    readonly confidence: number;
    readonly distribution: "normal" | "lognormal";
  },
): LeftOut[] {
  const { tests } = comparison;
  const column = COLUMN_OF[unit];
  if (!tests.has(column)) return [];
  const nameOf = (row: number): string =>
    String(
      (tests.row(row) as unknown as Record<string, string | null>)[column] ??
        tests.row(row).extra[column] ??
        "(blank)",
    );
  // Only what holds a failure: a part of lower bounds alone cannot be judged on.
  const names = [
    ...new Set(evidence.filter(({ bound }) => !bound).map(({ row }) => nameOf(row))),
  ].sort();
  if (names.length < 2) return [];
  // Steel of the unit is left out as well: what it says of the rest must not come from the part
  // judged.
  const rowsOf = new Map<string, number[]>();
  for (const { row } of comparison.evidence)
    rowsOf.set(nameOf(row), [...(rowsOf.get(nameOf(row)) ?? []), row]);
  return names.map((left): LeftOut => {
    const without = new Set(rowsOf.get(left) ?? []);
    const part = evidence.filter(({ row }) => without.has(row));
    const raw = derive(
      evidence.filter(({ row }) => !without.has(row)),
      without,
    );
    const factor = raw === null ? null : Math.min(1, raw);
    const failures = part.filter(({ bound }) => !bound);
    const scaled =
      factor === null
        ? []
        : testsOfGroup(part, tests).tests.map((test) => ({ ...test, ratio: test.ratio / factor }));
    const bounds = boundsAsTested(scaled, { ...question, target: 1 });
    return {
      unit,
      left,
      factor,
      adequate: factor === null || proposed === null ? null : proposed <= factor + 1e-12,
      n: failures.length,
      below: factor === null ? null : failures.filter(({ ratio }) => ratio < factor).length,
      fractile: "refusal" in bounds ? null : bounds.fractile,
    };
  });
}
