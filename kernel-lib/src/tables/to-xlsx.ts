import { type CellValue, headingOf, isMissing, isNumeric, type TableColumn } from "./column";
import { oneLine } from "./cell-text";
import { notesOf } from "./notes";
import type { TableContent } from "./table-content";
import { workbookBytes, type Cell, type Sheet } from "./workbook-file";

/** Characters; a wider text is wrapped. */
const WIDEST = 60;
const NARROWEST = 10;

/**
 * A table as a workbook (Office Open XML): numbers as numbers in full precision, units in the
 * heading, the heading frozen and repeated in print, caption and notes on a second sheet. Text that
 * looks like a formula stays text.
 * @example await writeFile("ratios.xlsx", toXlsx(table))
 */
export function toXlsx(table: TableContent): Uint8Array {
  return workbookBytes(table.title, tableSheets(table));
}

/** The two sheets of a table: the rows, and what must be known to read them. */
export function tableSheets(table: TableContent): Sheet[] {
  const heads = table.columns.map((column): Cell => ({
    value: oneLine(headingOf(column)),
    look: isNumeric(column) ? "headingRight" : "heading",
  }));
  const rows = table.rows.map((row) =>
    table.columns.map((column) => cellOf(column, row[column.key] ?? null)),
  );
  const widths = table.columns.map((column, c) =>
    Math.min(
      WIDEST,
      Math.max(
        NARROWEST,
        headingOf(column).length + 2,
        ...rows.map((row) => widthOf(row[c] ?? null)),
      ),
    ),
  );
  const notes: Cell[][] = [
    [{ value: table.title, look: "title" }],
    ...[table.caption ?? "", ...notesOf(table)]
      .filter((note) => note !== "" && note !== table.title)
      .map((value): Cell[] => [{ value, look: "wrapped" }]),
  ];
  return [
    { name: table.title, rows: [heads, ...rows], widths, frozenRows: 1 },
    { name: "Notes", rows: notes, widths: [100] },
  ];
}

function cellOf(column: TableColumn, value: CellValue): Cell {
  if (isMissing(value)) return null;
  if (typeof value === "number") return value;
  if (typeof value === "boolean") return value ? "yes" : "no";
  return { value: String(value), look: column.kind === "verdict" ? "strong" : "wrapped" };
}

function widthOf(cell: Cell): number {
  const value = typeof cell === "object" && cell !== null ? cell.value : cell;
  return typeof value === "number" ? 20 : String(value ?? "").length + 2;
}
