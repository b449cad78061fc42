import { terminalWidth } from "../use/terminal-width";
import type { Table } from "../../tables";

/** The forms in which a command prints a table. */
export const TABLE_FORMATS = ["text", "markdown", "html", "csv"] as const;

/** A table as text in one of the forms. */
export function tableText(table: Table, format: string): string {
  if (format === "markdown") return table.toMarkdown();
  if (format === "html") return table.toHtml();
  return format === "csv" ? table.toCsv().trimEnd() : table.toText(terminalWidth());
}
