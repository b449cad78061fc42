import { shareText } from "../statistics";
import { type CellValue, digitsOf, isMissing, limitOf, type TableColumn } from "./column";
import { roundedText, wholeText } from "./rounding";

export const missingMark = "–";

/** A cell as a reader sees it: rounded, with an en dash where there is no value. */
export function cellText(column: TableColumn, value: CellValue | undefined): string {
  if (value === undefined || isMissing(value)) return missingMark;
  if (typeof value === "number") {
    if (column.decimals !== undefined) return shareText(value, column.decimals);
    return column.kind === "integer"
      ? wholeText(value)
      : roundedText(value, digitsOf(column), limitOf(column));
  }
  if (typeof value === "boolean") return value ? "yes" : "no";
  return oneLine(value ?? missingMark);
}

/** Line ends become spaces, and control characters, which no document format needs, are dropped. */
export function oneLine(text: string): string {
  return text.replace(/[\r\n\t\u2028\u2029]+/g, " ").replace(/[\u0000-\u001f\u007f-\u009f]/g, "");
}

/** Text of a heading or note on a page: the characteristic ratio r_k with its subscript. */
export function withSubscripts(text: string): string {
  return text.replace(/\br_k\b/g, "r\u2096");
}
