import { faceOf } from "../images/fonts";
import { captionOf, type Block } from "./document";
import { PAGE, pdfText, TEXT_WIDTH } from "./pdf-page";
import { type PdfDrawing, makeRoom, INK } from "./pdf-drawing";

const POINTS_PER_PIXEL = 0.75;
/** Share of its size below which a figure starts a new page instead. */
const SMALLEST = 0.8;
const GAP = 12;
const HALF = (TEXT_WIDTH - GAP) / 2;
/** Room for a caption, in points. */
const CAPTION = 50;

/** A figure with its number and its picture. */
export interface PlacedFigure {
  readonly figure: Extract<Block, { kind: "figure" }>["figure"];
  readonly number: number;
  readonly svg: string;
}

/** Whether a figure is drawn in half the width: two such stand side by side. */
export function isNarrow({ layout }: PlacedFigure["figure"]): boolean {
  return layout.width * POINTS_PER_PIXEL <= 1.05 * HALF;
}

/**
 * A figure with its caption, not larger than the page. @throws Error for a picture with something
 * that PDF drawing does not know
 */
export function drawFigure(drawing: PdfDrawing, placed: PlacedFigure): void {
  const { document } = drawing;
  const [width, height] = sizeOf(placed);
  const most = (PAGE.height - PAGE.top - PAGE.bottom - CAPTION - 10) / height;
  let scale = Math.min(1, TEXT_WIDTH / width, most);
  // A figure that nearly fits is drawn a little smaller: a page does not end half empty.
  const left = (PAGE.height - PAGE.bottom - document.y - CAPTION) / height;
  if (left < scale && left > SMALLEST * scale) scale = left;
  makeRoom(document, height * scale + CAPTION);
  drawAt(drawing, placed, { left: PAGE.left, top: document.y, scale, width: TEXT_WIDTH });
  document.moveDown(0.9);
}

/** Two narrow figures side by side, each with its caption below. */
export function drawPair(drawing: PdfDrawing, pair: readonly PlacedFigure[]): void {
  const { document } = drawing;
  const scales = pair.map((one) => Math.min(1, HALF / sizeOf(one)[0]));
  const heights = pair.map((one, k) => sizeOf(one)[1] * scales[k]!);
  makeRoom(document, Math.max(...heights) + 1.4 * CAPTION);
  const top = document.y;
  const ends = pair.map((one, k) => {
    const left = PAGE.left + k * (HALF + GAP);
    drawAt(drawing, one, { left, top, scale: scales[k]!, width: HALF });
    return document.y;
  });
  document.x = PAGE.left;
  document.y = Math.max(...ends);
  document.moveDown(0.9);
}

function sizeOf({ figure: { layout } }: PlacedFigure): readonly [number, number] {
  return [layout.width * POINTS_PER_PIXEL, layout.height * POINTS_PER_PIXEL];
}

interface Place {
  readonly left: number;
  readonly top: number;
  readonly scale: number;
  /** Of the caption. */
  readonly width: number;
}

function drawAt(
  { document, tags, svgToPdf }: PdfDrawing,
  placed: PlacedFigure,
  { left, top, scale, width: captionWidth }: Place,
): void {
  const { figure, number, svg } = placed;
  const [width, height] = sizeOf(placed);
  const faults: string[] = [];
  const draw = (): void => {
    document.save();
    document.translate(left, top).scale(scale);
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
  tags.leaf("Caption", () => {
    document
      .font("bold")
      .fontSize(8.5)
      .fillColor(INK)
      .text(`Figure ${number}. `, left, top + height * scale + 6, {
        width: captionWidth,
        continued: true,
      });
    document.font("regular").text(pdfText(captionOf(figure)), { width: captionWidth });
  });
  document.x = PAGE.left;
}
