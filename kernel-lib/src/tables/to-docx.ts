import { createRequire } from "node:module";
import type * as Docx from "docx";
import { oneLine, withSubscripts } from "./cell-text";
import { alignOf, headingOf, type TableColumn } from "./column";
import { columnRoom, pageText, sharedWidths } from "./column-widths";
import { notesOf } from "./notes";
import type { TableContent } from "./table-content";
import { fixedPackageDates } from "./workbook-file/fixed-package";

/** Points of half size; tables of many columns are set smaller so that they stay on the page. */
const sizeFor = (columns: number): number => (columns > 6 ? 15 : 17);

/** Face of those tables; a word processor without it sets another narrow one. */
const NARROW = "DejaVu Sans Condensed";

/** Rows of a table that is kept on one page. */
const SHORT_TABLE = 15;

/**
 * The parts of a document that show a table: a caption, a native table whose heading row repeats on
 * every page, and the notes. For use in a larger document; `toDocx` makes a file of one table.
 */
export function docxTableParts(
  docx: typeof Docx,
  table: TableContent,
  number?: number,
): (Docx.Paragraph | Docx.Table)[] {
  const { AlignmentType, BorderStyle, Paragraph, Table, TableCell, TableRow, TextRun, WidthType } =
    docx;
  const size = sizeFor(table.columns.length);
  const narrow = table.columns.length > 6;
  const align = {
    left: AlignmentType.LEFT,
    right: AlignmentType.RIGHT,
    center: AlignmentType.CENTER,
  };
  const none = { style: BorderStyle.NONE, size: 0, color: "auto" };
  const rule = { style: BorderStyle.SINGLE, size: 6, color: "404040" };
  const thin = { style: BorderStyle.SINGLE, size: 2, color: "BFBFBF" };
  const total = 9600;
  const margin = table.columns.length > 9 ? 35 : 60;
  // DejaVu Sans is some 0.63 of its size wide a character, bold headings more, and a short word can
  // be all wide letters;
  // cells have a margin at both sides.
  const widths = sharedWidths(
    columnRoom(
      table,
      ({ length }) => (length + 0.6) * size * 10 * (narrow ? 0.62 : 0.69) + 2 * margin + 30,
      total,
    ),
    total,
  ).map(Math.floor);
  const cell = (
    text: string,
    column: TableColumn,
    c: number,
    bold: boolean,
    keepNext: boolean,
    borders: { top?: typeof rule; bottom?: typeof rule },
  ): Docx.TableCell =>
    new TableCell({
      width: { size: widths[c] ?? 0, type: WidthType.DXA },
      margins: { top: 30, bottom: 30, left: margin, right: margin },
      borders: { top: none, bottom: none, left: none, right: none, ...borders },
      children: [
        new Paragraph({
          keepNext,
          alignment: align[alignOf(column)],
          spacing: { before: 0, after: 0 },
          children: [new TextRun({ text, bold, size, ...(narrow ? { font: NARROW } : {}) })],
        }),
      ],
    });
  const notes = notesOf(table);
  const head = new TableRow({
    tableHeader: true,
    cantSplit: true,
    children: table.columns.map((column, c) =>
      cell(withSubscripts(oneLine(headingOf(column))), column, c, true, true, {
        top: rule,
        bottom: rule,
      }),
    ),
  });
  const rows = table.rows.map(
    (row, r) =>
      new TableRow({
        cantSplit: true,
        children: table.columns.map((column, c) =>
          cell(
            pageText(column, row[column.key]),
            column,
            c,
            column.kind === "verdict",
            table.rows.length <= SHORT_TABLE && (r < table.rows.length - 1 || notes.length > 0),
            { bottom: r === table.rows.length - 1 ? rule : thin },
          ),
        ),
      }),
  );
  const label = number === undefined ? "" : `Table ${number}. `;
  return [
    new Paragraph({
      style: "Caption",
      keepNext: true,
      spacing: { before: 200, after: 80 },
      children: [
        new TextRun({ text: label, bold: true }),
        new TextRun({ text: withSubscripts(oneLine(table.caption ?? table.title)) }),
      ],
    }),
    new Table({
      width: { size: total, type: WidthType.DXA },
      columnWidths: widths,
      rows: [head, ...rows],
    }),
    ...notes.map(
      (note, n) =>
        new Paragraph({
          keepNext: n < notes.length - 1,
          spacing: { before: 40, after: 0 },
          children: [new TextRun({ text: withSubscripts(oneLine(note)), size: 16, italics: true })],
        }),
    ),
    new Paragraph({ spacing: { before: 0, after: 120 }, children: [] }),
  ];
}

/**
 * A table as a document (DOCX) with a native table, with fixed dates so that the same table gives
 * the same bytes.
 * @example await writeFile("ratios.docx", await toDocx(table))
 */
export async function toDocx(table: TableContent): Promise<Uint8Array> {
  const docx = createRequire(__filename)("docx") as typeof Docx;
  const document = new docx.Document({
    title: oneLine(table.title),
    creator: "kernel-lib",
    styles: { default: { document: { run: { font: "DejaVu Sans", size: 18 } } } },
    sections: [
      {
        properties:
          table.columns.length > 7
            ? {
                page: {
                  size: {
                    orientation: docx.PageOrientation.LANDSCAPE,
                    width: 11906,
                    height: 16838,
                  },
                },
              }
            : {
                page: {
                  size: { width: 11906, height: 16838 },
                  margin: { left: 1100, right: 1100 },
                },
              },
        children: docxTableParts(docx, table),
      },
    ],
  });
  return fixedPackageDates(new Uint8Array(await docx.Packer.toBuffer(document)));
}
