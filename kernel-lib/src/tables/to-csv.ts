import { neutralText } from "../dataset";
import { type CellValue, isMissing } from "./column";
import type { TableContent } from "./table-content";

/**
 * Comma-separated values after RFC 4180, headed by the column keys: numbers in full precision (they
 * read back to the same number), missing values empty, text that a spreadsheet would run as a
 * formula made harmless.
 */
export function toCsv(table: TableContent): string {
  const lines = [table.columns.map((column) => field(column.key))];
  for (const row of table.rows)
    lines.push(table.columns.map((column) => field(row[column.key] ?? null)));
  return lines.map((line) => `${line.join(",")}\r\n`).join("");
}

function field(value: CellValue): string {
  if (isMissing(value)) return "";
  if (typeof value !== "string") return String(value);
  const safe = neutralText(value);
  return /[",\r\n]/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
}
