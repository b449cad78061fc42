import type { Comparison } from "../comparison";
import { Table } from "./table";
import type { TableText } from "./table-text";

/** Tests that gave no ratio, counted by status and reason. */
export function unusedTable(comparison: Comparison, text: TableText): Table {
  const counts = new Map<
    string,
    { status: string; reason: string; tests: number; first: string }
  >();
  for (const { row, status, reason } of comparison.unused) {
    const known = counts.get(`${status} ${reason}`);
    if (known) known.tests += 1;
    else
      counts.set(`${status} ${reason}`, {
        status,
        reason,
        tests: 1,
        first: comparison.tests.text(row, "test_id") ?? "",
      });
  }
  return new Table({
    ...text,
    rowKey: ["status", "reason"],
    columns: [
      { key: "status", title: "status", kind: "text" },
      { key: "reason", title: "reason", kind: "text" },
      { key: "tests", title: "tests", kind: "integer" },
      { key: "first", title: "first test", kind: "text" },
    ],
    rows: [...counts]
      .sort((a, b) => b[1].tests - a[1].tests || (a[0] < b[0] ? -1 : 1))
      .map(([, counted]) => counted),
  });
}
