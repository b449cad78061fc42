import { Option } from "commander";
import type { GroupSettings } from "../../comparison";
import type { JudgeOptions } from "../../face/comparison/judge-options";
import { Comparison } from "../../face/comparison/comparison";
import type { EvidenceColumn } from "../../face/comparison/evidence-row";
import type { Groups } from "../../face/comparison/groups";
import { CATEGORY_COLUMNS } from "../../face/differences/versus-options";
import { LEFT_OUT_COLUMNS } from "../../face/proposals/left-out-unit";
import type { Table } from "../../tables";
import { inventedAmong } from "../../dataset";
import type { RowsRead } from "../use/chosen-rows";
import { absent } from "../use/help";
import { asNamed, invalidOption, listed, oneOf } from "../use/invalid-input";
import type { ComparedGroups } from "./compared-groups";

/** What further tables are asked for. */
export interface FurtherOptions {
  readonly versus?: string;
  readonly leaveOut?: string;
}

/** `--versus` and `--leave-out`: tables beside the groups. */
export const furtherOptions = (): readonly [Option, Option] => [
  absent(
    new Option(
      "--versus <class>",
      `also compare each class with this one within the other groups, Holm-adjusted: a bar material such as steel, or column=word with ${listed(CATEGORY_COLUMNS)}`,
    ),
    "no such table",
  ),
  absent(
    new Option(
      "--leave-out <column>",
      `also give the verdicts without each value of this column in turn: ${listed(LEFT_OUT_COLUMNS)}`,
    ),
    "no such table",
  ),
];

/** The tables asked for beside the groups, by the key that they have in JSON. */
export function furtherTables(
  rows: RowsRead,
  compared: readonly ComparedGroups[],
  by: readonly string[],
  judge: GroupSettings,
  { versus, leaveOut }: FurtherOptions,
): Readonly<Record<string, Table>> {
  if (versus === undefined && leaveOut === undefined) return {};
  const column =
    leaveOut === undefined ? undefined : oneOf("leave-out", leaveOut, LEFT_OUT_COLUMNS);
  if (column !== undefined && compared.length > 1)
    throw invalidOption("leave-out", column, "--codes with one code");
  const groups = asNamed(() => groupsOf(rows, compared, by, judge));
  return {
    ...(versus === undefined ? {} : { differences: versusTable(groups, versus) }),
    ...(column === undefined ? {} : { left_out: groups.leaveOut(column).table() }),
  };
}

function versusTable(groups: Groups, words: string): Table {
  const [reference = "", named] = words.split("=").reverse();
  const column = oneOf("versus", named ?? "bar_material", CATEGORY_COLUMNS);
  return asNamed(() =>
    groups.versus(reference as "steel", { column: column as "bar_material" }),
  ).table();
}

/** The same pairs of test and provision as a notebook groups them. */
function groupsOf(
  { data, tests }: RowsRead,
  compared: readonly ComparedGroups[],
  by: readonly string[],
  judge: GroupSettings,
): Groups {
  const comparison = new Comparison(
    { keeps: false, invented: inventedAmong(data.studies), seed: 1 },
    tests.chosen,
    compared.map(({ comparison: pairs }) => ({ pairs })),
  );
  const [first, ...others] = by as EvidenceColumn[];
  return comparison.by(first!, ...others).judge(judge as JudgeOptions);
}
