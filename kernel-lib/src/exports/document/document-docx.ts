import { createRequire } from "node:module";
import type * as Docx from "docx";
import { symbolRuns } from "../../formula";
import { docxTableParts, fixedPackageDates } from "../../tables";
import { renderPng } from "../images";
import { captionOf, CHANGE_WORDS, numbering, type Block, type DocumentModel } from "./document";
import { equation } from "./equation";

type Parts = (Docx.Paragraph | Docx.Table | Docx.TableOfContents)[];

/** Printed width of the text, in pixels of 1/96 inch. */
const TEXT_WIDTH = 640;

/**
 * The packet as a document (DOCX): real headings, a contents field, captions, native tables whose
 * heading repeats, editable equations, page numbers. Dates are fixed, so that the same model gives
 * the same bytes.
 */
export async function documentDocx(model: DocumentModel): Promise<Uint8Array> {
  const docx = createRequire(__filename)("docx") as typeof Docx;
  const {
    AlignmentType,
    Document,
    Footer,
    Header,
    HeadingLevel,
    Packer,
    PageNumber,
    Paragraph,
    TextRun,
  } = docx;
  const numbers = numbering(model);
  const body: Parts = [
    new Paragraph({ style: "Title", children: [new TextRun(model.title)] }),
    new Paragraph({ children: [new TextRun(model.subtitle)] }),
    new Paragraph({ children: [new TextRun({ text: model.stamp, italics: true })] }),
    caution(docx, model.caution),
    new Paragraph({
      spacing: { before: 240 },
      children: [new TextRun({ text: "Contents", bold: true, size: 26 })],
    }),
    ...contents(docx, model),
  ];
  for (const [n, { id, title, blocks }] of model.sections.entries()) {
    body.push(
      new Paragraph({
        heading: HeadingLevel.HEADING_1,
        children: markedTitle(docx, id, n, `${n + 1}  ${title}`),
      }),
    );
    for (const block of blocks)
      body.push(...(await blockParts(docx, block, numbers.get(block) ?? 0)));
  }
  const small = (text: string): Docx.TextRun => new TextRun({ text, size: 15, color: "404040" });
  const document = new Document({
    title: model.title,
    description: model.caution,
    creator: "kernel-lib",
    styles: {
      default: {
        document: {
          run: { font: "DejaVu Sans", size: 19 },
          paragraph: { spacing: { after: 110, line: 264, lineRule: docx.LineRuleType.AUTO } },
        },
        title: {
          run: { size: 36, bold: true, color: "1A1A1A" },
          paragraph: { spacing: { after: 120 } },
        },
        heading1: {
          run: { size: 26, bold: true, color: "1A1A1A" },
          paragraph: { spacing: { before: 360, after: 140 }, keepNext: true },
        },
        heading2: {
          run: { size: 21, bold: true, color: "1A1A1A" },
          paragraph: { spacing: { before: 200, after: 80 }, keepNext: true },
        },
      },
      paragraphStyles: [
        {
          id: "Caption",
          name: "caption",
          basedOn: "Normal",
          next: "Normal",
          run: { size: 17, color: "1A1A1A" },
          paragraph: { spacing: { before: 80, after: 120 } },
        },
      ],
    },
    sections: [
      {
        properties: {
          page: {
            size: { width: 11906, height: 16838 },
            margin: { top: 1200, bottom: 1200, left: 1150, right: 1150 },
          },
        },
        headers: {
          default: new Header({ children: [new Paragraph({ children: [small(model.stamp)] })] }),
        },
        footers: {
          default: new Footer({
            children: [
              new Paragraph({
                alignment: AlignmentType.RIGHT,
                children: [
                  small("Page "),
                  new TextRun({ children: [PageNumber.CURRENT], size: 15 }),
                  small(" of "),
                  new TextRun({ children: [PageNumber.TOTAL_PAGES], size: 15 }),
                ],
              }),
            ],
          }),
        },
        children: body,
      },
    ],
  });
  return fixedPackageDates(new Uint8Array(await Packer.toBuffer(document)));
}

/**
 * Titles that lead to their sections, with the page as a field. The titles are written out, so that
 * contents stand there in programs that fill no fields, and no program has to ask its reader
 * whether it may.
 */
function contents(docx: typeof Docx, { sections }: DocumentModel): Docx.Paragraph[] {
  const { InternalHyperlink, PageReference, Paragraph, Tab, TextRun } = docx;
  const tabStops = [{ type: docx.TabStopType.RIGHT, position: 9600, leader: docx.LeaderType.DOT }];
  return sections.map(
    ({ id, title }, n) =>
      new Paragraph({
        spacing: { after: 20 },
        indent: { left: 300 },
        tabStops,
        children: [
          new InternalHyperlink({ anchor: id, children: [new TextRun(`${n + 1}  ${title}`)] }),
          new TextRun({ children: [new Tab(), new PageReference(id)] }),
        ],
      }),
  );
}

/**
 * A title that contents can lead to. The mark gets a number of ours: the library's own counts on
 * from one document to the next.
 */
function markedTitle(
  docx: typeof Docx,
  id: string,
  n: number,
  title: string,
): Docx.ParagraphChild[] {
  const mark = [
    new docx.BookmarkStart(id, n + 1),
    new docx.TextRun(title),
    new docx.BookmarkEnd(n + 1),
  ];
  // The library writes these marks in any paragraph but its type of children leaves them out.
  return mark as unknown as Docx.ParagraphChild[];
}

function caution(docx: typeof Docx, text: string): Docx.Paragraph {
  const side = { style: docx.BorderStyle.SINGLE, size: 12, color: "1A1A1A", space: 6 };
  return new docx.Paragraph({
    border: { top: side, bottom: side, left: side, right: side },
    spacing: { before: 160, after: 160 },
    indent: { left: 120, right: 120 },
    children: [new docx.TextRun({ text, bold: true })],
  });
}

async function blockParts(docx: typeof Docx, block: Block, number: number): Promise<Parts> {
  const { HeadingLevel, ImageRun, Paragraph, TextRun, UnderlineType } = docx;
  const marks = (change: "inserted" | "deleted" | undefined): Docx.IRunOptions =>
    change === "inserted"
      ? { bold: true, underline: { type: UnderlineType.SINGLE } }
      : change === "deleted"
        ? { strike: true }
        : {};
  const changeWord = (change: "inserted" | "deleted" | undefined): Docx.TextRun[] =>
    change ? [new TextRun({ text: CHANGE_WORDS[change], bold: true })] : [];
  switch (block.kind) {
    case "paragraph":
      return [new Paragraph({ children: running(docx, block.text) })];
    case "caution":
      return [caution(docx, plain(block.text))];
    case "list":
      return block.items.map(
        (item) =>
          new Paragraph({
            bullet: { level: 0 },
            spacing: { after: 50 },
            children: running(docx, item),
          }),
      );
    case "provision":
      return [
        ...(block.title === ""
          ? []
          : [
              new Paragraph({
                heading: HeadingLevel.HEADING_2,
                children: [new TextRun(plain(block.title))],
              }),
            ]),
        ...(block.pieces.length === 0
          ? []
          : [
              new Paragraph({
                indent: { left: 300 },
                keepNext: block.title !== "",
                children: block.pieces.flatMap(({ text, change }) => [
                  ...changeWord(change),
                  ...running(docx, text, marks(change)),
                ]),
              }),
            ]),
      ];
    case "formula":
      return [
        new Paragraph({
          indent: { left: 300 },
          keepNext: block.change === "deleted",
          children: [...changeWord(block.change), equation(docx, block, block.change)],
        }),
      ];
    case "table":
      return docxTableParts(docx, block.table, number);
    case "figure": {
      const { width, height } = block.figure.layout;
      const scale = Math.min(1, TEXT_WIDTH / width);
      const image = new ImageRun({
        type: "png",
        data: Buffer.from(await renderPng(block.figure, { dpi: 200 })),
        transformation: { width: Math.round(width * scale), height: Math.round(height * scale) },
        altText: {
          id: String(number),
          name: `Figure ${number}`,
          title: plain(block.figure.title),
          description: plain(block.figure.alt),
        },
      });
      return [
        new Paragraph({ keepNext: true, spacing: { before: 160, after: 40 }, children: [image] }),
        new Paragraph({
          style: "Caption",
          children: [
            new TextRun({ text: `Figure ${number}. `, bold: true }),
            new TextRun(plain(captionOf(block.figure))),
          ],
        }),
      ];
    }
  }
}

/** Running text with the subscripts of its symbols set as such. */
function running(docx: typeof Docx, text: string, marks: Docx.IRunOptions = {}): Docx.TextRun[] {
  return symbolRuns(plain(text)).map(
    ({ text: piece, script }) =>
      new docx.TextRun({
        text: piece,
        ...marks,
        ...(script === "sub" ? { subScript: true } : script === "symbol" ? { italics: true } : {}),
      }),
  );
}

/** Without the characters that XML 1.0 forbids. */
function plain(text: string): string {
  return text
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, "")
    .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, "\ufffd");
}
