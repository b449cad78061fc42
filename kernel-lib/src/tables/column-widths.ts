import { cellText } from "./cell-text";
import { headingOf, isNumeric, type CellValue, type TableColumn } from "./column";
import type { TableContent } from "./table-content";

/**
 * Longer words, such as a DOI, may break where the format breaks them: after a hyphen or a slash
 * unless told otherwise.
 */
const LONG_WORD = 16;

/**
 * Room of a column on a page: what it needs, so that no word is torn apart, and what it would like
 * to have.
 */
export interface ColumnRoom {
  readonly least: number;
  readonly wish: number;
}

/**
 * The room that each column of a table needs and would like, by a format's own measure of a text in
 * a cell.
 */
export function columnRoom(
  table: TableContent,
  widthOf: (text: string) => number,
  total: number,
  breaksAfter: RegExp = /(?<=[-/])/,
): ColumnRoom[] {
  return table.columns.map((column) => {
    const heading = headingOf(column);
    const texts = table.rows.map((row) => pageText(column, row[column.key]));
    const least = Math.min(
      total / 3,
      longest(
        [...heading.split(/\s+/), ...texts.flatMap((text) => unbroken(column, text, breaksAfter))],
        widthOf,
      ),
    );
    return {
      least,
      wish: Math.max(least, Math.min(total / 2, longest([heading, ...texts], widthOf))),
    };
  });
}

/**
 * Widths that together are `total`: each column gets what it needs, what is left goes to the
 * columns of long texts.
 */
export function sharedWidths(room: readonly ColumnRoom[], total: number): number[] {
  const needed = room.reduce((all, { least }) => all + least, 0);
  const spare = total - needed;
  if (spare <= 0) return room.map(({ least }) => (least / needed) * total);
  const wanted = room.reduce((all, { wish }) => all + wish, 0) - needed;
  return room.map(
    ({ least, wish }) =>
      least + (wanted > 0 ? (spare * (wish - least)) / wanted : spare / room.length),
  );
}

/** A cell on a page: a number such as 1.2 × 10⁻⁶ stays on one line. */
export function pageText(column: TableColumn, value: CellValue | undefined): string {
  const text = cellText(column, value);
  return isNumeric(column) ? text.replaceAll(" ", "\u00a0") : text;
}

function longest(texts: readonly string[], widthOf: (text: string) => number): number {
  return texts.reduce((most, text) => Math.max(most, widthOf(text)), 0);
}

/** A verdict is read at a glance: its words stay on one line. */
function unbroken(column: TableColumn, text: string, breaksAfter: RegExp): string[] {
  return column.kind === "verdict"
    ? [text]
    : text
        .split(/[ \n]+/)
        .flatMap((word) => (word.length > LONG_WORD ? word.split(breaksAfter) : [word]));
}
