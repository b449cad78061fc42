import { keyReader } from "./group-keys";
import type { Comparison } from "./comparison";
import { groupJudge } from "./group-judge";
import { type GroupSettings, type RatioGroup } from "./ratio-group";

/** A group without one part of its tests. */
export interface GroupWithout {
  /** The value of the column that is left out. */
  readonly left: string;
  /** Failures left out. */
  readonly n: number;
  readonly whole: RatioGroup;
  readonly rest: RatioGroup;
}

/**
 * Each group judged again without each value of a column in turn, such as each study. Nothing for a
 * group whose failures have one value only.
 * @param groups groups of the comparison
 * @param column a column of the tests; one that they do not have gives nothing
 * @example
 * groupsWithout(comparison, [group], "study_id", {}).filter(({ whole, rest }) => whole.verdict !== rest.verdict)
 */
export function groupsWithout(
  comparison: Comparison,
  groups: readonly RatioGroup[],
  column: string,
  settings: GroupSettings,
): GroupWithout[] {
  if (!comparison.tests.has(column)) return [];
  const read = keyReader(comparison, [column]);
  return groups.flatMap((whole) => {
    const parts = whole.evidence.map((one) => [one, String(read(one)[0] ?? "(blank)")] as const);
    const failed = parts.filter(([{ bound }]) => !bound);
    const names = [...new Set(failed.map(([, name]) => name))].sort();
    if (names.length < 2) return [];
    const judge = groupJudge(comparison, Object.keys(whole.by), settings);
    return names.map((left): GroupWithout => {
      const rest = parts.flatMap(([one, name]) => (name === left ? [] : [one]));
      const n = failed.filter(([, name]) => name === left).length;
      return { left, n, whole, rest: judge(whole.by, whole.label, rest, []) };
    });
  });
}
