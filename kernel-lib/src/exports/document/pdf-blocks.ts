import { CHANGE_WORDS, type Block } from "./document";
import { PAGE, pdfText, TEXT_WIDTH } from "./pdf-page";
import { drawTable } from "./pdf-table";
import { type PdfDrawing, makeRoom, say, INK } from "./pdf-drawing";
import { drawCaution } from "./pdf-caution";
import { drawFormula } from "./pdf-formula";
import { drawFigure } from "./pdf-figure";

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
      drawFigure(drawing, { figure: block.figure, number, svg });
  }
}
