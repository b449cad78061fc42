import type * as Docx from "docx";
import { symbolRuns } from "../../formula";
import { docxTableParts } from "../../tables";
import { renderPng } from "../images";
import { captionOf, CHANGE_WORDS, type Block } from "./document";
import { equation } from "./equation";

export type Parts = (Docx.Paragraph | Docx.Table | Docx.TableOfContents)[];

/** Printed width of the text, in pixels of 1/96 inch. */
const TEXT_WIDTH = 640;

/** A warning in a frame. */
export function caution(docx: typeof Docx, text: string): Docx.Paragraph {
  const side = { style: docx.BorderStyle.SINGLE, size: 12, color: "1A1A1A", space: 6 };
  return new docx.Paragraph({
    border: { top: side, bottom: side, left: side, right: side },
    spacing: { before: 160, after: 160 },
    indent: { left: 120, right: 120 },
    children: [new docx.TextRun({ text, bold: true })],
  });
}

/** A block of the document as paragraphs and tables. */
export async function blockParts(docx: typeof Docx, block: Block, number: number): Promise<Parts> {
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
