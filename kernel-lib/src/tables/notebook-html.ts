import { columnPieces, type ColumnMeasure } from "./column-pieces";
import type { KeyedTable } from "./table-content";
import { toHtml } from "./to-html";

/** Width of an output in the classic notebook at 1200 px, in px. */
const PAGE = 950;
/** Mean width of a character in its type of 12 px, and in that of `<small>`. */
const [PLAIN, SMALL] = [7, 5.9];

/** Cells have a padding of 6 px on both sides. */
function measure(character: number): ColumnMeasure {
  return { widthOf: (text) => character * [...text].length, gap: 12, shortName: 0 };
}

/**
 * A table as a notebook shows it. A page that is not trusted strips styles and aligns every cell to
 * the right, so a block inside each cell aligns it as well. A table whose words do not fit the page
 * side by side is set in small type; where that is not enough it goes on below, with the columns
 * that name its rows.
 */
export function toNotebookHtml(table: KeyedTable): string {
  const pieces = columnPieces(table, PAGE, measure(PLAIN));
  if (pieces.length > 1 && columnPieces(table, PAGE, measure(SMALL)).length === 1)
    return toHtml(table, {
      block: (align, content) => aligned(align, `<small>${content}</small>`),
    });
  return pieces
    .map(({ columns }, k) =>
      toHtml(table, { columns, block: aligned, first: k === 0, last: k === pieces.length - 1 }),
    )
    .join("");
}

function aligned(align: string, content: string): string {
  return align === "right" ? content : `<div align="${align}">${content}</div>`;
}
