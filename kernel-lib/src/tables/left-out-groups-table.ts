import type { GroupWithout } from "../comparison";
import type { TableText } from "./table-text";
import { Table } from "./table";

/** Groups without each study, series, laboratory or size in turn: bounds and verdicts. */
export function leftOutGroupsTable(found: readonly GroupWithout[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["group", "left"],
    columns: [
      { key: "group", title: "group", kind: "text" },
      { key: "left", title: "left out", kind: "text" },
      {
        key: "n_left",
        title: "n left out",
        kind: "integer",
        note: "failures in the part omitted",
      },
      { key: "n", title: "n of the rest", kind: "integer" },
      {
        key: "whole",
        title: "r_k, all tests",
        kind: "number",
        note: "characteristic ratio in general: lower one-sided bound of the 5 % fractile, series effect included",
      },
      { key: "rest", title: "r_k, the rest", kind: "number" },
      { key: "upper", title: "upper bound, remaining tests", kind: "number" },
      { key: "verdict_whole", title: "verdict, all tests", kind: "verdict" },
      { key: "verdict_rest", title: "verdict, remaining tests", kind: "verdict" },
    ],
    rows: found.map(({ left, n, whole, rest }) => ({
      group: whole.label,
      left,
      n_left: n,
      n: rest.n,
      whole: whole.lower,
      rest: rest.lower,
      upper: rest.upper,
      verdict_whole: whole.verdict,
      verdict_rest: rest.verdict,
    })),
  });
}
