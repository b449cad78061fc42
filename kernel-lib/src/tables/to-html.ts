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

/**
 * An accessible HTML table: caption, column and row headings with their scope, the notes in the
 * foot. Each row carries `data-row-key`, each cell `data-column` and, for a number, `data-value` in
 * full precision. For a notebook each cell is aligned by a block inside it as well: a page that is
 * not trusted strips styles, and its own style aligns every cell to the right.
 */
export function toHtml(table: KeyedTable, forNotebook = false): string {
  const block = (column: TableColumn, content: string): string =>
    forNotebook && alignOf(column) !== "right"
      ? `<div align="${alignOf(column)}">${content}</div>`
      : content;
  const head = table.columns.map(
    (column) =>
      `<th scope="col" data-column="${escapeHtml(column.key)}"${style(column)}>${block(column, escapeHtml(withSubscripts(headingOf(column))))}</th>`,
  );
  const rows = table.rows.map(
    (row) =>
      `<tr data-row-key="${escapeHtml(table.rowKeyOf(row))}">${cells(table, row, block)}</tr>`,
  );
  const notes = notesOf(table).map((note) => `<p>${escapeHtml(withSubscripts(note))}</p>`);
  const foot =
    notes.length === 0
      ? []
      : [
          `<tfoot><tr><td colspan="${table.columns.length}">${forNotebook ? `<div align="left">${notes.join("")}</div>` : notes.join("")}</td></tr></tfoot>`,
        ];
  return [
    `<table id="${escapeHtml(table.id)}" class="result-table">`,
    `<caption>${escapeHtml(withSubscripts(table.caption))}</caption>`,
    `<thead><tr>${head.join("")}</tr></thead>`,
    `<tbody>`,
    ...rows,
    `</tbody>`,
    ...foot,
    `</table>`,
    "",
  ].join("\n");
}

type Block = (column: TableColumn, content: string) => string;

function cells(table: KeyedTable, row: TableRow, block: Block): string {
  return table.columns
    .map((column) => cell(column, row, column.key === table.rowKey[0], block))
    .join("");
}

function cell(column: TableColumn, row: TableRow, isRowHeading: boolean, block: Block): string {
  const value = row[column.key] ?? null;
  const exact =
    typeof value === "number" && isNumeric(column) && !isMissing(value)
      ? ` data-value="${value}"`
      : "";
  const text = escapeHtml(cellText(column, value));
  // Text from a data file may run right to left; bdi keeps it from turning its neighbours around.
  const content = block(column, isNumeric(column) ? text : `<bdi>${text}</bdi>`);
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
