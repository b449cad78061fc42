import { renderSvg } from "../images";
import { FIXED_DATE, taggedPdf } from "../images/tagged-pdf";
import { numbering, type Block, type DocumentModel } from "./document";
import { drawPair, isNarrow } from "./pdf-figure";
import { drawBlock } from "./pdf-blocks";
import { drawCaution } from "./pdf-caution";
import { makeRoom, say, type PdfDrawing } from "./pdf-drawing";
import { PAGE, pdfText, TEXT_WIDTH } from "./pdf-page";
import { pdfTags } from "./pdf-tags";

/**
 * The packet as one PDF: bookmarks, contents that lead to their pages, page numbers, text that can
 * be searched, fonts embedded, and tagged: a screen reader finds headings, table cells with their
 * headings, and figures in words.
 */
export async function documentPdf(model: DocumentModel): Promise<Uint8Array> {
  const { default: svgToPdf } = await import("svg-to-pdfkit");
  const info = {
    Title: model.title,
    Subject: model.caution,
    Creator: "kernel-lib",
    CreationDate: FIXED_DATE,
    ModDate: FIXED_DATE,
  };
  const margins = { left: PAGE.left, right: PAGE.right, top: PAGE.top, bottom: PAGE.bottom };
  const { document, written } = await taggedPdf({
    size: "A4",
    margins,
    info,
    bufferPages: true,
  });
  const drawing: PdfDrawing = { document, tags: pdfTags(document), svgToPdf };
  drawTitle(drawing, model);
  const { coverFirst = false } = model;
  let titles = coverFirst ? [] : drawContents(drawing, model);
  if (!coverFirst) document.addPage();
  const pages: number[] = [];
  const numbers = numbering(model);
  for (const [n, { id, title, blocks }] of model.sections.entries()) {
    makeRoom(document, 110);
    if (n > 0 && document.y > PAGE.top + 5) document.moveDown(1.2);
    pages.push(document.bufferedPageRange().count);
    document.outline.addItem(`${n + 1}  ${pdfText(title)}`);
    drawing.tags.leaf("H2", () =>
      say(drawing, `${n + 1}  ${title}`, "bold", 13, { destination: id }),
    );
    document.moveDown(0.5);
    for (let k = 0; k < blocks.length; k++) {
      const [block, next] = [blocks[k]!, blocks[k + 1]];
      const number = numbers.get(block) ?? 0;
      if (narrow(block) && next !== undefined && narrow(next)) {
        const both = [block.figure, next.figure];
        const svgs = await Promise.all(both.map(renderSvg));
        drawPair(
          drawing,
          both.map((figure, at) => ({ figure, number: number + at, svg: svgs[at]! })),
        );
        k += 1;
      } else
        drawBlock(
          drawing,
          block,
          number,
          block.kind === "figure" ? await renderSvg(block.figure) : "",
        );
    }
    if (coverFirst && n === 0) titles = drawContents(drawing, model);
  }
  drawContentsPages(drawing, titles, pages);
  drawMargins(drawing, model.stamp);
  document.end();
  return written;
}

const narrow = (block: Block): block is Extract<Block, { kind: "figure" }> =>
  block.kind === "figure" && isNarrow(block.figure);

/** Title, subtitle, stamp and caution. */
function drawTitle(drawing: PdfDrawing, model: DocumentModel): void {
  const { document, tags } = drawing;
  tags.leaf("H1", () => say(drawing, model.title, "bold", 19));
  document.moveDown(0.3);
  tags.leaf("P", () => say(drawing, model.subtitle, "regular", 10.5));
  document.moveDown(0.3);
  tags.leaf("P", () => say(drawing, model.stamp, "oblique", 9.5));
  drawCaution(drawing, model.caution);
}

/** Draws the contents; returns where their titles stand. */
function drawContents(
  drawing: PdfDrawing,
  model: DocumentModel,
): { readonly page: number; readonly y: number }[] {
  const { document, tags } = drawing;
  makeRoom(document, 40 + 16 * model.sections.length);
  tags.leaf("H2", () => say(drawing, "Contents", "bold", 13));
  document.moveDown(0.3);
  const titles: { page: number; y: number }[] = [];
  tags.inside("TOC", () => {
    for (const [n, { id, title }] of model.sections.entries()) {
      tags.inside("TOCI", () =>
        tags.leaf("Link", () => {
          makeRoom(document, 20);
          titles.push({ page: document.bufferedPageRange().count - 1, y: document.y });
          say(drawing, `${n + 1}  ${title}`, "regular", 10, {
            goTo: id,
            lineGap: 2,
            width: TEXT_WIDTH - 40,
          });
        }),
      );
    }
  });
  return titles;
}

/**
 * The page of each section beside its title, known once all are drawn; who listens follows the link
 * instead.
 */
function drawContentsPages(
  { document, tags }: PdfDrawing,
  titles: readonly { readonly page: number; readonly y: number }[],
  pages: readonly number[],
): void {
  titles.forEach(({ page, y }, n) => {
    document.switchToPage(page);
    tags.decoration(() =>
      document
        .font("regular")
        .fontSize(10)
        .fillColor("#1a1a1a")
        .text(String(pages[n]), PAGE.left, y, {
          width: TEXT_WIDTH,
          align: "right",
          lineBreak: false,
        }),
    );
  });
}

/** The stamp and the page number of each page, known once all pages are. */
function drawMargins({ document, tags }: PdfDrawing, stamp: string): void {
  const { start, count } = document.bufferedPageRange();
  for (let page = start; page < start + count; page++) {
    document.switchToPage(page);
    // Text below the margin would start a page of its own.
    document.page.margins.bottom = 0;
    tags.decoration(() => {
      document.font("regular").fontSize(7.5).fillColor("#404040");
      document.text(pdfText(stamp), PAGE.left, 30, { width: TEXT_WIDTH, lineBreak: false });
      document.text(`Page ${page - start + 1} of ${count}`, PAGE.left, PAGE.height - 40, {
        width: TEXT_WIDTH,
        align: "right",
        lineBreak: false,
      });
    });
  }
}
