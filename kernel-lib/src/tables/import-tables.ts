import type { ImportedTable } from "../dataset";
import type { TableText } from "./table-text";
import { Table } from "./table";

/** Source rows that were not imported, with the reason for each. */
export function rejectedTable(rejected: ImportedTable["rejected"], text: TableText): Table {
  const several = rejected.some(({ file }) => file !== undefined);
  return new Table({
    ...text,
    rowKey: several ? ["file", "row"] : ["row"],
    columns: [
      ...(several ? [{ key: "file", title: "file", kind: "text" } as const] : []),
      { key: "row", title: "row", kind: "integer" },
      { key: "reason", title: "reason", kind: "text" },
    ],
    rows: rejected.map(({ file, row, reason }) => ({
      row,
      reason,
      ...(file === undefined ? {} : { file }),
    })),
  });
}

/** What a recipe assumed because the source does not state it. */
export function assumedTable(assumed: ImportedTable["assumed"], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["name"],
    columns: [
      { key: "name", title: "assumption", kind: "text" },
      { key: "column", title: "column", kind: "text" },
      { key: "says", title: "assumed because", kind: "text" },
      { key: "uncertainty", title: "uncertainty", kind: "text" },
      { key: "rows", title: "rows", kind: "integer" },
    ],
    rows: assumed.map(({ name, column, says, uncertainty, rows }) => ({
      name,
      column,
      says,
      uncertainty,
      rows,
    })),
  });
}
