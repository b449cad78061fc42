import type { Figure } from "../../figures/figure";
import { faceOf } from "./fonts";
import { renderSvg } from "./svg";
import { FIXED_DATE, taggedPdf } from "./tagged-pdf";

/** Points of 1/72 inch in a pixel of 1/96 inch. */
const pointsPerPixel = 0.75;

/**
 * A figure as a one-page vector PDF at print size, with the fonts embedded, the text searchable and
 * the figure in words.
 */
export async function renderPdf(figure: Figure): Promise<Uint8Array> {
  const svg = await renderSvg(figure);
  const { default: svgToPdf } = await import("svg-to-pdfkit");
  const width = figure.layout.width * pointsPerPixel;
  const height = figure.layout.height * pointsPerPixel;
  const info = {
    Title: figure.title,
    Subject: figure.alt,
    CreationDate: FIXED_DATE,
    ModDate: FIXED_DATE,
  };
  const { document, written } = await taggedPdf({ size: [width, height], margin: 0, info });
  const faults: string[] = [];
  const draw = (): void => {
    svgToPdf(document, svg, 0, 0, {
      width,
      height,
      fontCallback: (_family, bold, italic) => faceOf(bold, italic),
      warningCallback: (message) => faults.push(message),
    });
  };
  // A screen reader gets the figure in words.
  document.addStructure(
    document.struct("Document", {}, [document.struct("Figure", { alt: figure.alt }, [draw])]),
  );
  document.end();
  const bytes = await written;
  if (faults.length > 0)
    throw new Error(
      `The figure "${figure.id}" cannot be drawn in PDF: ${faults[0]}. Expected an SVG of shapes and text only.`,
    );
  return bytes;
}
