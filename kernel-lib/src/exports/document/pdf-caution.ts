import { PAGE, pdfText, TEXT_WIDTH } from "./pdf-page";
import { type PdfDrawing, makeRoom, INK } from "./pdf-drawing";

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
