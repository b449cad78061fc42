import {
  alignOf,
  columnRoom,
  headingOf,
  missingMark,
  pageText,
  sharedWidths,
  tableNotes,
  withSubscripts,
  type Table,
  type TableColumn,
} from "../../tables";
import type { PdfTags } from "./pdf-tags";

interface Place {
  readonly left: number;
  readonly width: number;
  /** Where a page ends, in points from its top. */
  readonly bottom: number;
}

const PADDING = 2.5;
/** Characters of one cell; more would not fit on a page. */
const MOST_CHARACTERS = 4000;
/** Height of a table that is kept on one page, in points. */
const SHORT_TABLE = 260;

/**
 * Draws a table with its caption and notes; the heading stands again on every further page and no
 * row is torn apart.
 */
export function drawTable(
  document: PDFKit.PDFDocument,
  tags: PdfTags,
  table: Table,
  number: number,
  place: Place,
): void {
  const narrow = table.columns.length > 6;
  const size = narrow ? 7.5 : 7.8;
  const [plain, strong] = narrow
    ? (["narrow", "narrowBold"] as const)
    : (["regular", "bold"] as const);
  const texts = table.rows.map((row) =>
    table.columns.map((column) => pageText(column, row[column.key]).slice(0, MOST_CHARACTERS)),
  );
  const heads = table.columns.map((column) => withSubscripts(headingOf(column)));
  document.font(strong).fontSize(size);
  const widths = sharedWidths(
    columnRoom(table, (text) => document.widthOfString(text) + 2 * PADDING + 1, place.width),
    place.width,
  );
  const heightOf = (cells: readonly string[], bold: boolean): number => {
    const height = (text: string, c: number): number => {
      document.font(bold || table.columns[c]?.kind === "verdict" ? strong : plain).fontSize(size);
      return document.heightOfString(text === "" ? missingMark : text, {
        width: (widths[c] ?? 0) - 2 * PADDING,
      });
    };
    return Math.max(...cells.map(height)) + 2 * PADDING;
  };
  const rule = (thickness: number, color: string): void => {
    tags.decoration(() =>
      document
        .moveTo(place.left, document.y)
        .lineTo(place.left + place.width, document.y)
        .lineWidth(thickness)
        .stroke(color),
    );
  };
  const line = (
    cells: readonly string[],
    bold: boolean,
    write: (column: TableColumn, draw: () => void) => void,
  ): void => {
    const height = heightOf(cells, bold);
    const top = document.y;
    let x = place.left;
    cells.forEach((text, c) => {
      const column = table.columns[c] as TableColumn;
      document
        .font(bold || column.kind === "verdict" ? strong : plain)
        .fontSize(size)
        .fillColor("#1a1a1a");
      const left = x + PADDING;
      write(column, () =>
        document.text(text, left, top + PADDING, {
          width: (widths[c] ?? 0) - 2 * PADDING,
          align: alignOf(column),
        }),
      );
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
  const firstHeading = (): void =>
    tags.inside("TR", () =>
      line(heads, true, (_column, draw) => tags.leaf("TH", draw, { scope: "Column" })),
    );
  const repeatedHeading = (): void => line(heads, true, (_column, draw) => tags.decoration(draw));
  const rowHeading = table.columns.find(({ key }) => key === table.rowKey[0]);
  const bodyRow = (cells: readonly string[]): void => {
    tags.inside("TR", () =>
      line(cells, false, (column, draw) =>
        column === rowHeading ? tags.leaf("TH", draw, { scope: "Row" }) : tags.leaf("TD", draw),
      ),
    );
  };
  // A short table stands on one page; of a longer one at least its first rows follow its heading.
  const whole = texts.reduce(
    (height, cells) => height + heightOf(cells, false),
    24 + heightOf(heads, true),
  );
  if (document.y + (whole < SHORT_TABLE ? whole : 70 + heightOf(heads, true)) > place.bottom)
    document.addPage();
  tags.leaf("P", () => {
    document
      .font("bold")
      .fontSize(8.5)
      .fillColor("#1a1a1a")
      .text(`Table ${number}. `, place.left, document.y, { width: place.width, continued: true });
    document.font("regular").text(withSubscripts(table.caption), { width: place.width });
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
  for (const note of tableNotes(table))
    tags.leaf("Note", () =>
      document
        .font("oblique")
        .fontSize(7.5)
        .fillColor("#404040")
        .text(withSubscripts(note), place.left, document.y, { width: place.width }),
    );
  document.x = place.left;
  document.moveDown(1);
}
