import { alignOf, headingOf, missingMark, shownText, tableNotes, type Table, type TableColumn } from "../../tables";
import type { PdfTags } from "./pdf-tags";

interface Place {
  readonly left: number;
  readonly width: number;
  /** Where a page ends, in points from its top. */
  readonly bottom: number;
}

const PADDING = 3;
/** Characters of one cell; more would not fit on a page. */
const MOST_CHARACTERS = 4000;
/** Longer words, such as a DOI, may break after a hyphen or a slash. */
const LONG_WORD = 16;

/** Draws a table with its caption and notes; the heading stands again on every further page and no row is torn apart. */
export function drawTable(document: PDFKit.PDFDocument, tags: PdfTags, table: Table, number: number, place: Place): void {
  const size = table.columns.length > 9 ? 6 : table.columns.length > 6 ? 6.8 : 7.8;
  const texts = table.rows.map((row) => table.columns.map((column) => shownText(column, row[column.key]).slice(0, MOST_CHARACTERS)));
  const heads = table.columns.map(headingOf);
  const widths = columnWidths(document, table.columns, heads, texts, size, place.width);
  const heightOf = (cells: readonly string[], bold: boolean): number => {
    const height = (text: string, c: number): number => {
      document.font(bold || table.columns[c]?.kind === "verdict" ? "bold" : "regular").fontSize(size);
      return document.heightOfString(text === "" ? missingMark : text, { width: (widths[c] ?? 0) - 2 * PADDING });
    };
    return Math.max(...cells.map(height)) + 2 * PADDING;
  };
  const rule = (thickness: number, color: string): void => {
    tags.decoration(() => document.moveTo(place.left, document.y).lineTo(place.left + place.width, document.y).lineWidth(thickness).stroke(color));
  };
  const line = (cells: readonly string[], bold: boolean, write: (column: TableColumn, draw: () => void) => void): void => {
    const height = heightOf(cells, bold);
    const top = document.y;
    let x = place.left;
    cells.forEach((text, c) => {
      const column = table.columns[c] as TableColumn;
      document.font(bold || column.kind === "verdict" ? "bold" : "regular").fontSize(size).fillColor("#1a1a1a");
      const left = x + PADDING;
      write(column, () => document.text(text, left, top + PADDING, { width: (widths[c] ?? 0) - 2 * PADDING, align: alignOf(column) }));
      x += widths[c] ?? 0;
    });
    document.x = place.left;
    document.y = top + height;
  };
  const heading = (draw: () => void): void => {
    rule(1, "#404040");
    draw();
    rule(0.6, "#404040");
  };
  // Read aloud once, at the head of the table; what stands again on further pages is decoration.
  const firstHeading = (): void => tags.inside("TR", () => line(heads, true, (_column, draw) => tags.leaf("TH", draw, { scope: "Column" })));
  const repeatedHeading = (): void => line(heads, true, (_column, draw) => tags.decoration(draw));
  const rowHeading = table.columns.find(({ key }) => key === table.rowKey[0]);
  const bodyRow = (cells: readonly string[]): void => {
    tags.inside("TR", () => line(cells, false, (column, draw) => (column === rowHeading ? tags.leaf("TH", draw, { scope: "Row" }) : tags.leaf("TD", draw))));
  };
  if (document.y + 70 + heightOf(heads, true) > place.bottom) document.addPage();
  tags.leaf("P", () => {
    document.font("bold").fontSize(8.5).fillColor("#1a1a1a").text(`Table ${number}. `, place.left, document.y, { width: place.width, continued: true });
    document.font("regular").text(table.caption, { width: place.width });
  });
  document.moveDown(0.3);
  tags.inside("Table", () => {
    heading(firstHeading);
    texts.forEach((cells, r) => {
      if (document.y + heightOf(cells, false) > place.bottom) {
        document.addPage();
        heading(repeatedHeading);
      }
      bodyRow(cells);
      rule(r === texts.length - 1 ? 1 : 0.25, r === texts.length - 1 ? "#404040" : "#bfbfbf");
    });
  });
  document.y += 3;
  for (const note of tableNotes(table)) tags.leaf("Note", () => document.font("oblique").fontSize(7).fillColor("#404040").text(note, place.left, document.y, { width: place.width }));
  document.x = place.left;
  document.moveDown(1);
}

/** Each column gets the width of its longest word, what is left goes to the columns of long texts. */
function columnWidths(document: PDFKit.PDFDocument, columns: readonly TableColumn[], heads: readonly string[], texts: readonly (readonly string[])[], size: number, total: number): number[] {
  document.font("bold").fontSize(size);
  const width = (text: string): number => document.widthOfString(text) + 2 * PADDING + 1;
  // A verdict is read at a glance: its words stay on one line.
  const words = (column: TableColumn, text: string): string[] => (column.kind === "verdict" ? [text] : text.split(/\s+/).flatMap((word) => (word.length > LONG_WORD ? word.split(/(?<=[-/])/) : [word])));
  const least = columns.map((column, c) => Math.min(total / 3, Math.max(...(heads[c] ?? "").split(/\s+/).map(width), ...texts.flatMap((cells) => words(column, cells[c] ?? "")).map(width))));
  const wish = columns.map((_, c) => Math.max(least[c] ?? 0, Math.min(total / 2, Math.max(...[heads[c] ?? "", ...texts.map((cells) => cells[c] ?? "")].map(width)))));
  const sum = (list: readonly number[]): number => list.reduce((all, one) => all + one, 0);
  const spare = total - sum(least);
  if (spare <= 0) return least.map((one) => (one / sum(least)) * total);
  const wanted = sum(wish) - sum(least);
  return least.map((one, c) => one + (wanted > 0 ? (spare * ((wish[c] ?? 0) - one)) / wanted : spare / columns.length));
}
