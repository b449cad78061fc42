import { cellText } from "./cell-text";
import { alignOf, headingOf, type TableColumn } from "./column";
import { notesOf } from "./notes";
import type { TableContent } from "./table";

/** Aligned plain text for a terminal and for a notebook without rich output. */
export function toText(table: TableContent): string {
  const cells = table.rows.map((row) => table.columns.map((column) => cellText(column, row[column.key])));
  const widths = table.columns.map((column, i) => Math.max(length(headingOf(column)), ...cells.map((row) => length(row[i] ?? ""))));
  const line = (parts: readonly string[]): string =>
    table.columns.map((column, i) => pad(parts[i] ?? "", widths[i] ?? 0, column)).join("  ").trimEnd();
  return [
    table.caption ?? table.title,
    line(table.columns.map(headingOf)),
    widths.map((width) => "─".repeat(width)).join("  "),
    ...cells.map(line),
    ...notesOf(table),
  ].join("\n");
}

function length(text: string): number {
  return [...text].length;
}

function pad(text: string, width: number, column: TableColumn): string {
  const room = width - length(text);
  const before = { left: 0, right: room, center: Math.floor(room / 2) }[alignOf(column)];
  return " ".repeat(before) + text + " ".repeat(room - before);
}
