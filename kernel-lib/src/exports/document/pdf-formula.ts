import { symbolText, toText } from "../../formula";
import { CHANGE_WORDS, type Block } from "./document";
import { equationSetter } from "./pdf-equation";
import { PAGE, TEXT_WIDTH } from "./pdf-page";
import { type PdfDrawing, makeRoom, say, INK } from "./pdf-drawing";

/**
 * An equation on a line of its own; one that is too wide even when small is written as wrapped text
 * instead.
 */
export function drawFormula(
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
