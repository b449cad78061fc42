import { headingOf } from "./column";
import { columnRoom, pageText, sharedWidths } from "./column-widths";
import type { TableContent } from "./table-content";

/**
 * Width of the text of an A4 page of the standard classes at 10 pt, upright and on its side, in
 * points.
 */
const UPRIGHT = 345;
export const SIDEWAYS = 550;

/**
 * Sizes that a table is set in: mean width of a small letter or digit and space between two
 * columns, in points.
 */
const SIZES = [
  { command: "\\small", character: 4.4, space: 10 },
  { command: "\\footnotesize", character: 4.05, space: 8 },
  { command: "\\scriptsize", character: 3.65, space: 6 },
] as const;
/** Lines that stand on one page with caption and notes. */
const LINES_OF_A_PAGE = 36;

/** Mean lines of a row beyond which smaller type reads better. */
const MOST_LINES = 2.5;

/** How a table is set on a page. */
export interface LatexLayout {
  readonly size: { readonly command: string; readonly space: number };
  /** Width of the page in points, and what of it each column gets where its lines must break. */
  readonly total: number;
  readonly widths: readonly number[] | null;
  /** True for a table that goes on over several pages. */
  readonly long: boolean;
}

/**
 * The largest type in which a table fits the width of the page: as it is, with broken lines, on its
 * side.
 */
export function latexLayout(table: TableContent): LatexLayout {
  const texts = table.columns.map((column) => [
    headingOf(column),
    ...table.rows.map((row) => pageText(column, row[column.key])),
  ]);
  for (const size of SIZES.slice(0, 2)) {
    if (sum(texts.map((list) => Math.max(...list.map(widthIn(size))))) <= UPRIGHT)
      return { size, total: UPRIGHT, widths: null, long: table.rows.length > LINES_OF_A_PAGE };
  }
  const ways = [UPRIGHT, SIDEWAYS].flatMap((total) =>
    SIZES.map((size) => ({
      size,
      total,
      room: columnRoom(table, widthIn(size), total, /(?<=[-/_])/),
    })),
  );
  const fitting = ways.filter((way) => sum(way.room.map(({ least }) => least)) <= way.total);
  // Within the page chosen, smaller type where rows would become towers of broken lines.
  const found = (
    fitting.length > 0 ? fitting.filter(({ total }) => total === fitting[0]?.total) : ways.slice(-1)
  ).map(({ size, total, room }) => {
    const widths = sharedWidths(room, total);
    return {
      size,
      total,
      widths,
      lines: sum(
        table.rows.map((_, row) =>
          linesOf(
            texts.map((list) => widthIn(size)(list[row + 1] ?? "")),
            widths,
          ),
        ),
      ),
    };
  });
  const { lines, ...chosen } = found.reduce((larger, one) =>
    larger.lines <= MOST_LINES * table.rows.length ? larger : one,
  );
  return { ...chosen, long: lines > LINES_OF_A_PAGE * (UPRIGHT / chosen.total) };
}

/** Lines of a row; they are broken at words, so no column is filled to its edge. */
function linesOf(needed: readonly number[], widths: readonly number[]): number {
  return Math.max(...needed.map((width, c) => Math.ceil(width / (0.92 * (widths[c] ?? 1)))));
}

function widthIn({ character, space }: (typeof SIZES)[number]): (text: string) => number {
  // Capitals and m are wider by half, digits by a tenth.
  return (text) =>
    (text.length +
      0.1 * (text.match(/\d/g)?.length ?? 0) +
      0.5 * (text.match(/[A-Zmw—−]/g)?.length ?? 0) +
      0.5) *
      character +
    space;
}

function sum(list: readonly number[]): number {
  return list.reduce((all, one) => all + one, 0);
}
