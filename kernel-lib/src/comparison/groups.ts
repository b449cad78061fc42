import { notJudgedByGroup } from "./account";
import type { Comparison, Evidence } from "./comparison";
import { compareKeys, keyReader } from "./group-keys";
import { labelWords } from "./labels";
import { onePerTest } from "./one-per-test";
import { groupJudge } from "./group-judge";
import { type GroupSettings, type RatioGroup } from "./ratio-group";

/**
 * Groups the ratios of a comparison by columns of the tests. `mode` is the mode of the provision
 * judged, `failure_mode` the mode observed in the test, `provision` the provision's id; every other
 * name is a column of the tests. Without `mode` a test counts once (`onePerTest`). Groups come in
 * order of first appearance of sorted keys.
 * @param known groups by label, made with the same settings: one with the very same evidence is not
 *   evaluated again
 * @example groupRatios(comparison, ["mode", "bar_material", "bar_size"])
 */
export function groupRatios(
  comparison: Comparison,
  by: readonly string[],
  settings: GroupSettings = {},
  known: ReadonlyMap<string, RatioGroup> = new Map(),
): RatioGroup[] {
  const keyOf = keyReader(comparison, by);
  const groups = new Map<string, Evidence[]>();
  const notJudged = notJudgedByGroup(comparison, by);
  const judge = groupJudge(comparison, by, settings);
  for (const one of by.includes("mode") ? comparison.evidence : onePerTest(comparison)) {
    const key = JSON.stringify(keyOf(one));
    const members = groups.get(key);
    if (members) members.push(one);
    else groups.set(key, [one]);
  }
  return [...groups]
    .map(([key, members]) => ({ keys: JSON.parse(key) as (string | number | null)[], members }))
    .sort((a, b) => compareKeys(a.keys, b.keys))
    .map(({ keys, members }) => {
      const named = Object.fromEntries(by.map((name, k) => [name, keys[k] ?? null]));
      const same = known.get(labelOf(named));
      return same && equalEvidence(same.evidence, members)
        ? same
        : judge(named, labelOf(named), members, notJudged.get(JSON.stringify(keys)) ?? []);
    });
}

function labelOf(by: RatioGroup["by"]): string {
  return Object.entries(by)
    .map(([column, value]) => labelWords(column, value))
    .join(", ");
}

function equalEvidence(a: readonly Evidence[], b: readonly Evidence[]): boolean {
  return (
    a.length === b.length &&
    a.every(
      (one, k) =>
        one.row === b[k]?.row &&
        one.column === b[k].column &&
        one.bound === b[k].bound &&
        Object.is(one.ratio, b[k].ratio),
    )
  );
}
