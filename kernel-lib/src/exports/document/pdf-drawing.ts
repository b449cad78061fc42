import type svgToPdf from "svg-to-pdfkit";
import { symbolRuns } from "../../formula";
import { faceOf, type FontFace } from "../images/fonts";
import { PAGE, pdfText, TEXT_WIDTH } from "./pdf-page";
import type { PdfTags } from "./pdf-tags";

export const INK = "#1a1a1a";
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

/** A new page when less than `height` is left on this one. */
export function makeRoom(document: PDFKit.PDFDocument, height: number): void {
  if (document.y + height > PAGE.height - PAGE.bottom) document.addPage();
}
