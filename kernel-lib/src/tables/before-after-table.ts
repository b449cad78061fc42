import type { BeforeAfter } from "../proposals";
import { Table } from "./table";
import type { TableText } from "./table-text";
import { byColumns, byCells } from "./group-columns";

/** Before and after a proposal, group by group. */
export function beforeAfterTable(change: BeforeAfter, text: TableText): Table {
  const by = change.groups[0]?.by ?? { group: null };
  return new Table({
    ...text,
    rowKey: Object.keys(by),
    columns: [
      ...byColumns(by),
      { key: "n", title: "n", kind: "integer" },
      {
        key: "before",
        title: "r_k, present",
        kind: "number",
        note: "characteristic ratio in general: lower one-sided bound of the 5 % fractile, series effect included",
      },
      { key: "upper_before", title: "upper bound, present", kind: "number" },
      { key: "after", title: "r_k, proposed", kind: "number" },
      { key: "upper_after", title: "upper bound, proposed", kind: "number" },
      { key: "mean_before", title: "mean ratio, present", kind: "number" },
      { key: "mean_after", title: "mean ratio, proposed", kind: "number" },
      { key: "verdict_before", title: "verdict, present", kind: "verdict" },
      { key: "verdict_after", title: "verdict, proposed", kind: "verdict" },
    ],
    rows: change.groups.map(({ by: keys, before, after }) => ({
      ...byCells(keys),
      n: before.n,
      before: before.lower,
      upper_before: before.upper,
      after: after.lower,
      upper_after: after.upper,
      mean_before: before.mean,
      mean_after: after.mean,
      verdict_before: before.verdict,
      verdict_after: after.verdict,
    })),
  });
}
