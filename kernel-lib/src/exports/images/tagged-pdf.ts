import { fontFaces, fontFile, narrowFaces } from "./fonts";

/** A fixed date, so that the same content gives the same bytes on every day. */
export const FIXED_DATE = new Date(Date.UTC(2000, 0, 1));

/**
 * An empty tagged PDF with the house's fonts, and its bytes once it is ended.
 * @param options size, margins and information of the file
 */
export async function taggedPdf(
  options: PDFKit.PDFDocumentOptions,
): Promise<{ readonly document: PDFKit.PDFDocument; readonly written: Promise<Uint8Array> }> {
  const { default: PdfDocument } = await import("pdfkit");
  const document = new PdfDocument({
    ...options,
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
  for (const face of [...fontFaces, ...narrowFaces]) document.registerFont(face, fontFile(face));
  // Plotly asks for "0, 0" where it wants a solid line; PDF has no such dash.
  const dash = document.dash.bind(document);
  document.dash = (length, options_): typeof document =>
    ([] as number[]).concat(length as number | number[]).every((part) => part === 0)
      ? document.undash()
      : dash(length, options_);
  return { document, written };
}
