import { faceOf } from "../images/fonts";
import { captionOf, type Block } from "./document";
import { PAGE, pdfText, TEXT_WIDTH } from "./pdf-page";
import { type PdfDrawing, makeRoom, INK } from "./pdf-drawing";

const POINTS_PER_PIXEL = 0.75;
/** Share of its size below which a figure starts a new page instead. */
const SMALLEST = 0.8;

/**
 * A figure with its caption, not larger than the page. @throws Error for a picture with something
 * that PDF drawing does not know
 */
export function drawFigure(
  { document, tags, svgToPdf }: PdfDrawing,
  figure: Extract<Block, { kind: "figure" }>["figure"],
  number: number,
  svg: string,
): void {
  const width = figure.layout.width * POINTS_PER_PIXEL;
  const height = figure.layout.height * POINTS_PER_PIXEL;
  let scale = Math.min(1, TEXT_WIDTH / width, (PAGE.height - PAGE.top - PAGE.bottom - 60) / height);
  // A figure that nearly fits is drawn a little smaller: a page does not end half empty.
  const left = (PAGE.height - PAGE.bottom - document.y - 50) / height;
  if (left < scale && left > SMALLEST * scale) scale = left;
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
