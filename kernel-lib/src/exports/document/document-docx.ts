import { createRequire } from "node:module";
import type * as Docx from "docx";
import { fixedPackageDates } from "../../tables";
import { numbering, type DocumentModel } from "./document";
import { type Parts, caution, blockParts } from "./docx-blocks";
import { contents, markedTitle } from "./docx-contents";

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
  const { sheet = false } = model;
  const front: Parts = [
    new Paragraph({ style: "Title", children: [new TextRun(model.title)] }),
    new Paragraph({ children: [new TextRun(model.subtitle)] }),
    new Paragraph({ children: [new TextRun({ text: model.stamp, italics: true })] }),
    caution(docx, model.caution),
  ];
  const listed: Parts = [
    new Paragraph({
      spacing: { before: 240 },
      children: [new TextRun({ text: "Contents", bold: true, size: 26 })],
    }),
    ...contents(docx, model),
  ];
  const { coverFirst = false } = model;
  const body: Parts = sheet ? [] : coverFirst ? front : [...front, ...listed];
  for (const [n, { id, title, blocks }] of model.sections.entries()) {
    body.push(
      new Paragraph({
        heading: HeadingLevel.HEADING_1,
        pageBreakBefore: sheet && n > 0,
        children: markedTitle(docx, id, n, sheet ? title : `${n + 1}  ${title}`),
      }),
    );
    for (const block of blocks)
      body.push(...(await blockParts(docx, block, numbers.get(block) ?? 0)));
    if (coverFirst && n === 0) body.push(...listed);
  }
  const small = (text: string): Docx.TextRun => new TextRun({ text, size: 15, color: "404040" });
  const document = new Document({
    title: model.title,
    description: model.caution,
    creator: "kernel-lib",
    styles: {
      default: {
        document: {
          run: { font: sheet ? "DejaVu Sans Condensed" : "DejaVu Sans", size: sheet ? 16 : 19 },
          paragraph: {
            spacing: {
              after: sheet ? 30 : 110,
              line: sheet ? 240 : 264,
              lineRule: docx.LineRuleType.AUTO,
            },
          },
        },
        title: {
          run: { size: 36, bold: true, color: "1A1A1A" },
          paragraph: { spacing: { after: 120 } },
        },
        heading1: {
          run: { size: 26, bold: true, color: "1A1A1A" },
          paragraph: {
            spacing: sheet ? { after: 60 } : { before: 360, after: 140 },
            keepNext: true,
          },
        },
        heading2: {
          run: { size: sheet ? 18 : 21, bold: true, color: "1A1A1A" },
          paragraph: {
            spacing: sheet ? { before: 80, after: 20 } : { before: 200, after: 80 },
            keepNext: true,
          },
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
            margin: sheet
              ? { top: 600, bottom: 500, left: 800, right: 800, header: 300, footer: 250 }
              : { top: 1200, bottom: 1200, left: 1150, right: 1150 },
          },
        },
        headers: {
          default: new Header({
            children: [
              new Paragraph({
                children: [small(sheet ? `${model.stamp} ${model.caution}` : model.stamp)],
              }),
            ],
          }),
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
