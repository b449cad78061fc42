import { cellText, oneLine, withSubscripts } from "./cell-text";
import {
  alignOf,
  headingOf,
  isMissing,
  isNumeric,
  type TableColumn,
  type TableRow,
} from "./column";
import { notesOf } from "./notes";
import type { KeyedTable } from "./table-content";

/** How a table is written where it is not one plain table. */
export interface HtmlLayout {
  /** The columns to write; all where absent. */
  readonly columns?: readonly TableColumn[];
  /** What stands in a cell around its content; nothing where absent. */
  readonly block?: (align: string, content: string) => string;
  /** False for a piece that goes on below another: it has no caption. */
  readonly first?: boolean;
  /** False for a piece that another goes on below: it has no notes. */
  readonly last?: boolean;
}

/**
 * An accessible HTML table: caption, column and row headings with their scope, the notes in the
 * foot. Each row carries `data-row-key`, each cell `data-column` and, for a number, `data-value` in
 * full precision.
 */
export function toHtml(table: KeyedTable, layout: HtmlLayout = {}): string {
  const { columns = table.columns, block = (_, content) => content } = layout;
  const { first = true, last = true } = layout;
  const cells = (row: TableRow): string =>
    columns.map((column) => cell(column, row, column.key === table.rowKey[0], block)).join("");
  const head = columns.map(
    (column) =>
      `<th scope="col" data-column="${escapeHtml(column.key)}"${style(column)}>${block(alignOf(column), escapeHtml(withSubscripts(headingOf(column))))}</th>`,
  );
  const rows = table.rows.map(
    (row) => `<tr data-row-key="${escapeHtml(table.rowKeyOf(row))}">${cells(row)}</tr>`,
  );
  const notes = last ? notesOf(table) : [];
  const words = notes.map((note) => `<p>${escapeHtml(withSubscripts(note))}</p>`).join("");
  return [
    `<table${first ? ` id="${escapeHtml(table.id)}"` : ""} class="result-table">`,
    ...(first ? [`<caption>${escapeHtml(withSubscripts(table.caption))}</caption>`] : []),
    `<thead><tr>${head.join("")}</tr></thead>`,
    `<tbody>`,
    ...rows,
    `</tbody>`,
    ...(words === ""
      ? []
      : [`<tfoot><tr><td colspan="${columns.length}">${block("left", words)}</td></tr></tfoot>`]),
    `</table>`,
    "",
  ].join("\n");
}

function cell(
  column: TableColumn,
  row: TableRow,
  isRowHeading: boolean,
  block: NonNullable<HtmlLayout["block"]>,
): string {
  const value = row[column.key] ?? null;
  const exact =
    typeof value === "number" && isNumeric(column) && !isMissing(value)
      ? ` data-value="${value}"`
      : "";
  const text = escapeHtml(cellText(column, value));
  // Text from a data file may run right to left; bdi keeps it from turning its neighbours around.
  const content = block(alignOf(column), isNumeric(column) ? text : `<bdi>${text}</bdi>`);
  const attributes = `data-column="${escapeHtml(column.key)}"${exact}${style(column)}`;
  return isRowHeading
    ? `<th scope="row" ${attributes}>${content}</th>`
    : `<td ${attributes}>${content}</td>`;
}

function style(column: TableColumn): string {
  return ` style="text-align: ${alignOf(column)}"`;
}

/** Makes a text harmless as HTML content and inside a double-quoted attribute. */
export function escapeHtml(text: string): string {
  return oneLine(text)
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;")
    .replace(/'/g, "&#39;");
}
