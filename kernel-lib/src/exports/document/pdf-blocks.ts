import type svgToPdf from "svg-to-pdfkit";
import { symbolRuns, symbolText, toText } from "../../formula";
import { faceOf, type FontFace } from "../images/fonts";
import { captionOf, CHANGE_WORDS, type Block } from "./document";
import { equationSetter } from "./pdf-equation";
import { PAGE, pdfText, TEXT_WIDTH } from "./pdf-page";
import { drawTable } from "./pdf-table";
import type { PdfTags } from "./pdf-tags";

const POINTS_PER_PIXEL = 0.75;
const INK = "#1a1a1a";
/** Extents of DejaVu Sans in thousandths of its size, from its own table. */
const [ASCENDER, DESCENDER] = [928, 236] as const;
const [SUBSCRIPT_SIZE, SUBSCRIPT_DROP] = [0.72, 0.16] as const;

/** What drawing needs: the document, its structure, and how SVG becomes drawing. */
export interface PdfDrawing {
  readonly document: PDFKit.PDFDocument;
  readonly tags: PdfTags;
  readonly svgToPdf: typeof svgToPdf;
}

/** Writes one text in the house's ink, with the subscripts of its symbols below the line. */
export function say(
  { document }: PdfDrawing,
  text: string,
  face: FontFace,
  size: number,
  options: PDFKit.Mixins.TextOptions = {},
  at?: { readonly x: number; readonly y: number },
): void {
  const runs = symbolRuns(pdfText(text));
  document.font(face).fontSize(size).fillColor(INK);
  const lineHeight = document.currentLineHeight();
  const below = -(lineHeight * (ASCENDER / (ASCENDER + DESCENDER)) + SUBSCRIPT_DROP * size);
  runs.forEach(({ text: piece, script }, n) => {
    document
      .font(script === "symbol" ? faceOf(face.startsWith("bold"), true) : face)
      .fontSize(script === "sub" ? SUBSCRIPT_SIZE * size : size);
    // The small letters keep the height of the line, or the next line would come too close.
    const lineGap = (options.lineGap ?? 0) + lineHeight - document.currentLineHeight();
    // A line under the small letters would run through them.
    const underline = options.underline === true && script !== "sub";
    const written = {
      width: TEXT_WIDTH,
      ...options,
      underline,
      lineGap,
      baseline: script === "sub" ? below : ("top" as const),
      continued: n < runs.length - 1 || options.continued === true,
    };
    if (n === 0 && at) document.text(piece, at.x, at.y, written);
    else document.text(piece, written);
  });
  document.font(face).fontSize(size);
}

/** A warning in a frame. */
export function drawCaution(drawing: PdfDrawing, text: string): void {
  const { document, tags } = drawing;
  document.font("bold").fontSize(9.5);
  const height = document.heightOfString(pdfText(text), { width: TEXT_WIDTH - 20 });
  makeRoom(document, height + 24);
  const top = document.y + 4;
  tags.decoration(() =>
    document
      .rect(PAGE.left, top, TEXT_WIDTH, height + 14)
      .lineWidth(1.2)
      .stroke(INK),
  );
  tags.leaf("P", () =>
    document
      .fillColor(INK)
      .text(pdfText(text), PAGE.left + 10, top + 7, { width: TEXT_WIDTH - 20 }),
  );
  document.x = PAGE.left;
  document.y = top + height + 24;
}

/** A new page when less than `height` is left on this one. */
export function makeRoom(document: PDFKit.PDFDocument, height: number): void {
  if (document.y + height > PAGE.height - PAGE.bottom) document.addPage();
}

/**
 * Draws a block where the document stands and leaves the position below it.
 * @param number of the table or figure
 * @param svg the picture of a figure
 * @throws Error for a figure with something that PDF drawing does not know
 */
export function drawBlock(drawing: PdfDrawing, block: Block, number: number, svg: string): void {
  const { document, tags } = drawing;
  switch (block.kind) {
    case "paragraph":
      // A paragraph of few lines is not torn apart.
      document.font("regular").fontSize(9.5);
      makeRoom(
        document,
        Math.min(
          60,
          document.heightOfString(pdfText(block.text), { width: TEXT_WIDTH, lineGap: 1.5 }),
        ),
      );
      tags.leaf("P", () => say(drawing, block.text, "regular", 9.5, { lineGap: 1.5 }));
      document.moveDown(0.6);
      break;
    case "caution":
      drawCaution(drawing, block.text);
      break;
    case "list":
      tags.inside("L", () => {
        for (const item of block.items) {
          makeRoom(document, 24);
          const top = document.y;
          tags.decoration(() =>
            document
              .font("regular")
              .fontSize(9.5)
              .fillColor(INK)
              .text("•", PAGE.left + 4, top),
          );
          tags.inside("LI", () =>
            tags.leaf("LBody", () =>
              say(
                drawing,
                item,
                "regular",
                9.5,
                { width: TEXT_WIDTH - 16, lineGap: 1.5 },
                { x: PAGE.left + 16, y: top },
              ),
            ),
          );
          document.x = PAGE.left;
          document.moveDown(0.25);
        }
      });
      document.moveDown(0.4);
      break;
    case "provision":
      // Its heading and the first lines of a paragraph, which may be the next block.
      makeRoom(document, 95);
      if (block.title !== "") {
        tags.leaf("H3", () => say(drawing, block.title, "bold", 10.5));
        document.moveDown(0.2);
      }
      tags.leaf("P", () =>
        block.pieces.forEach(({ text, change }, n) => {
          if (change)
            say(drawing, CHANGE_WORDS[change], "bold", 9.5, { continued: true, lineGap: 1.5 });
          say(drawing, text, change === "inserted" ? "bold" : "regular", 9.5, {
            continued: n < block.pieces.length - 1,
            underline: change === "inserted",
            strike: change === "deleted",
            lineGap: 1.5,
          });
        }),
      );
      document.moveDown(0.6);
      break;
    case "formula":
      drawFormula(drawing, block);
      break;
    case "table":
      drawTable(document, tags, block.table, number, {
        left: PAGE.left,
        width: TEXT_WIDTH,
        bottom: PAGE.height - PAGE.bottom,
      });
      break;
    case "figure":
      drawFigure(drawing, block.figure, number, svg);
  }
}

/**
 * An equation on a line of its own; one that is too wide even when small is written as wrapped text
 * instead.
 */
function drawFormula(
  drawing: PdfDrawing,
  { symbol, expression, change }: Extract<Block, { kind: "formula" }>,
): void {
  const { document, tags } = drawing;
  const words = change ? CHANGE_WORDS[change] : "";
  const alt = `${words}${symbolText(symbol)} = ${toText(expression)}`;
  const equation = equationSetter(document);
  const left = PAGE.left + 16;
  const indent = words === "" ? 0 : document.font("bold").fontSize(9.5).widthOfString(words) + 6;
  const box = [11, 10, 9, 8, 7]
    .map((size) => equation(symbol, expression, size))
    .find(({ width }) => width + indent <= TEXT_WIDTH - 16);
  if (box === undefined) {
    makeRoom(document, 30);
    tags.leaf(
      "Formula",
      () =>
        say(
          drawing,
          alt,
          "oblique",
          9.5,
          {
            width: TEXT_WIDTH - 16,
            lineGap: 1.5,
            underline: change === "inserted",
            strike: change === "deleted",
          },
          { x: left, y: document.y },
        ),
      { alt },
    );
  } else {
    makeRoom(document, box.ascent + box.descent + 8);
    const baseline = document.y + box.ascent + 2;
    tags.leaf(
      "Formula",
      () => {
        if (words !== "")
          document.font("bold").fontSize(9.5).fillColor(INK).text(words, left, baseline, {
            lineBreak: false,
            baseline: "alphabetic",
            underline: false,
          });
        box.draw(left + indent, baseline);
        const marked =
          change === "inserted"
            ? baseline + box.descent + 1.5
            : change === "deleted"
              ? baseline - 3.2
              : null;
        if (marked !== null)
          document
            .moveTo(left + indent, marked)
            .lineTo(left + indent + box.width, marked)
            .lineWidth(0.8)
            .stroke(INK);
      },
      { alt },
    );
    document.y = baseline + box.descent + 6;
  }
  document.x = PAGE.left;
  document.moveDown(0.4);
}

function drawFigure(
  { document, tags, svgToPdf }: PdfDrawing,
  figure: Extract<Block, { kind: "figure" }>["figure"],
  number: number,
  svg: string,
): void {
  const width = figure.layout.width * POINTS_PER_PIXEL;
  const height = figure.layout.height * POINTS_PER_PIXEL;
  const scale = Math.min(
    1,
    TEXT_WIDTH / width,
    (PAGE.height - PAGE.top - PAGE.bottom - 60) / height,
  );
  makeRoom(document, height * scale + 50);
  const top = document.y;
  const faults: string[] = [];
  const draw = (): void => {
    document.save();
    document.translate(PAGE.left, top).scale(scale);
    svgToPdf(document, svg, 0, 0, {
      width,
      height,
      fontCallback: (_family, bold, italic) => faceOf(bold, italic),
      warningCallback: (message) => faults.push(message),
    });
    document.restore();
  };
  tags.leaf("Figure", draw, { alt: pdfText(figure.alt) });
  if (faults.length > 0)
    throw new Error(
      `The figure "${figure.id}" cannot be drawn in PDF: ${faults[0]}. Expected an SVG of shapes and text only.`,
    );
  document.undash().fillOpacity(1).strokeOpacity(1);
  document.x = PAGE.left;
  document.y = top + height * scale + 6;
  tags.leaf("Caption", () => {
    document
      .font("bold")
      .fontSize(8.5)
      .fillColor(INK)
      .text(`Figure ${number}. `, { width: TEXT_WIDTH, continued: true });
    document.font("regular").text(pdfText(captionOf(figure)), { width: TEXT_WIDTH });
  });
  document.moveDown(0.9);
}
