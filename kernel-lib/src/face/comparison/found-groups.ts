import {
  groupRatios,
  valueWords,
  type Comparison as Pairs,
  type GroupSettings,
  type RatioGroup,
} from "../../comparison";
import { groupJudge } from "../../comparison/group-judge";
import type { Condition } from "../tests/condition";
import type { ComparedCode } from "./compared-codes";
import type { EvidenceRow } from "./evidence-row";

/** The rows of a comparison, as far as its groups know them. */
export interface GroupedRows extends Iterable<EvidenceRow> {
  readonly name: string;
  readonly answer: string;
  readonly basis: string;
  readonly parts: readonly ComparedCode[];
  readonly columnNames: readonly string[];
  readonly numberColumns: readonly string[];
  where(condition: Condition<EvidenceRow>): this;
}

/** A group, and the code whose capacities it has. */
export interface FoundGroup {
  readonly code: string;
  readonly group: RatioGroup;
}

/** With several codes, `code` is the first grouping column. */
export function foundGroups(
  parts: readonly ComparedCode[],
  columns: readonly string[],
  settings: GroupSettings,
): FoundGroup[] {
  const named = columns.includes("code") || parts.length > 1;
  return parts.flatMap(({ pairs }) => {
    const groups = groupRatios(
      pairs,
      columns.filter((column) => column !== "code"),
      settings,
    );
    return groups.map((group) => ({
      code: pairs.code.id,
      group: named
        ? {
            ...group,
            by: { code: pairs.code.id, ...group.by },
            label: [pairs.code.id, group.label].filter(Boolean).join(", "),
          }
        : group,
    }));
  });
}

/** The group of no rows: its verdict says that there are too few tests. */
export function emptyGroup(
  pairs: Pairs,
  key: Readonly<Record<string, unknown>>,
  settings: GroupSettings,
): RatioGroup {
  const by = Object.entries(key) as [string, string | number | null][];
  const columns = by.map(([column]) => column).filter((column) => column !== "code");
  const label = by.map(([, value]) => valueWords(value)).join(", ");
  return groupJudge(pairs, columns, settings)(Object.fromEntries(by), label, [], []);
}

/**
 * The group that has these values; undefined where none has.
 * @throws RangeError where several have them, naming them
 */
export function groupWith(
  found: readonly FoundGroup[],
  key: Readonly<Record<string, unknown>>,
  by: readonly string[],
): RatioGroup | undefined {
  const wanted = Object.entries(key);
  const fitting = found.filter(({ group }) =>
    wanted.every(([column, value]) => group.by[column] === value),
  );
  if (fitting.length > 1)
    throw new RangeError(
      `${fitting.length} groups have ${JSON.stringify(key)}: ${fitting.map(({ group }) => group.label).join("; ")}. Expected values of ${by.join(", ")} that name one.`,
    );
  return fitting[0]?.group;
}
