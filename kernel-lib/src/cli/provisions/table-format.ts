import type { Table } from "../../tables";
import { WrongUse } from "./prediction-settings";

/** The forms in which a command prints a table. */
export const TABLE_FORMATS = ["text", "markdown", "html", "csv"] as const;

/** A table as text in one of the forms. */
export function tableText(table: Table, format: string): string {
  if (format === "markdown") return table.toMarkdown();
  if (format === "html") return table.toHtml();
  return format === "csv" ? table.toCsv().trimEnd() : table.toText();
}

/** A number above 0 from an option. @throws WrongUse */
export function positiveNumber(option: string, value: string): number {
  const number = Number(value);
  if (value.trim() === "" || !(number > 0 && number < Infinity)) throw new WrongUse(`--${option} "${value}" is not usable, expected a number above 0`);
  return number;
}
