import type { Figure } from "../../figures/figure";
import { faceOf, fontFaces, fontFile } from "./fonts";
import { renderSvg } from "./svg";

/** Points of 1/72 inch in a pixel of 1/96 inch. */
const pointsPerPixel = 0.75;

/** A fixed date, so that the same figure gives the same bytes on every day. */
const fixedDate = new Date(Date.UTC(2000, 0, 1));

/**
 * A figure as a one-page vector PDF at print size, with the fonts embedded, the text searchable and
 * the figure in words.
 */
export async function renderPdf(figure: Figure): Promise<Uint8Array> {
  const svg = await renderSvg(figure);
  const [{ default: PdfDocument }, { default: svgToPdf }] = await Promise.all([
    import("pdfkit"),
    import("svg-to-pdfkit"),
  ]);
  const width = figure.layout.width * pointsPerPixel;
  const height = figure.layout.height * pointsPerPixel;
  const info = {
    Title: figure.title,
    Subject: figure.alt,
    CreationDate: fixedDate,
    ModDate: fixedDate,
  };
  const document = new PdfDocument({
    size: [width, height],
    margin: 0,
    info,
    lang: "en",
    displayTitle: true,
    tagged: true,
    pdfVersion: "1.7",
  });
  const chunks: Buffer[] = [];
  const written = new Promise<Uint8Array>((resolve, reject) => {
    document.on("data", (chunk: Buffer) => chunks.push(chunk));
    document.on("end", () => resolve(new Uint8Array(Buffer.concat(chunks))));
    document.on("error", reject);
  });
  for (const face of fontFaces) document.registerFont(face, fontFile(face));
  // Plotly asks for "0, 0" where it wants a solid line; PDF has no such dash.
  const dash = document.dash.bind(document);
  document.dash = (length, options): typeof document =>
    ([] as number[]).concat(length as number | number[]).every((part) => part === 0)
      ? document.undash()
      : dash(length, options);
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
