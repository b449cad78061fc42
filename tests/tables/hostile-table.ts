import { Table, type TableColumn } from "../../kernel-lib/src/tables";

export const columns: TableColumn[] = [
  { key: "group", title: "Group", kind: "text" },
  { key: "n", title: "Tests", kind: "integer" },
  { key: "mean", title: "Mean ratio", kind: "number", note: "mode-matched" },
  { key: "load", title: "Load", kind: "number", unit: "kN" },
  { key: "verdict", title: "Verdict", kind: "verdict" },
];
export const hostile = [
  "=1+1",
  "+1",
  "-1+2",
  "@SUM(A1)",
  "\t=1",
  "  =1",
  "＝1",
  "<script>alert(1)</script>",
  "a|b",
  'say "no", twice',
  "two\nlines",
  "\u202eright to left",
  "مرحبا",
  "🧪".repeat(40),
  "x".repeat(5000),
  "[link](javascript:1)",
  "$x$",
  "\u0000\u0007bell",
];
export const tableOf = (texts: readonly string[]): Table =>
  new Table({
    id: "ratios",
    title: "Ratios",
    columns,
    rowKey: ["group"],
    notes: ["A note"],
    rows: texts.map((group, i) => ({
      group,
      n: i,
      mean: 0.9996,
      load: NaN,
      verdict: "falls short",
    })),
  });
export const display = (table: Table): Record<string, unknown> => {
  const method = Reflect.get(table, Symbol.for("code-comparison.display")) as (
    this: Table,
  ) => Record<string, unknown>;
  return method.call(table);
};
