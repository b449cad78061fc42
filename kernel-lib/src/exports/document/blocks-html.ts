import { runsHtml, symbolHtml, toHtmlLine } from "../../formula";
import { displayBundle } from "../../tables/display-bundle";
import { CHANGE_WORDS, type Block, type ProvisionPiece } from "./document";

/**
 * Blocks as HTML for a notebook: no style, no MathML and no inline SVG, all of which a page that is
 * not trusted strips; equations are lines of text, added text stands in `<ins>`, removed in
 * `<del>`.
 */
export function blocksHtml(blocks: readonly Block[]): string {
  return blocks
    .map(blockHtml)
    .filter((html) => html !== "")
    .join("\n");
}

function blockHtml(block: Block): string {
  switch (block.kind) {
    case "paragraph":
      return `<p>${runsHtml(block.text)}</p>`;
    case "caution":
      return `<blockquote><strong>Caution.</strong> ${runsHtml(block.text)}</blockquote>`;
    case "list":
      return `<ul>${block.items.map((item) => `<li>${runsHtml(item)}</li>`).join("")}</ul>`;
    case "provision":
      return [
        block.title === "" ? "" : `<p><strong>${runsHtml(block.title)}</strong></p>`,
        block.pieces.length === 0 ? "" : `<p>${block.pieces.map(marked).join("")}</p>`,
      ].join("");
    case "formula": {
      const { symbol, expression, change } = block;
      const word = change ? `${strong(CHANGE_WORDS[change])} ` : "";
      return `<p>${word}${symbolHtml(symbol)} = ${toHtmlLine(expression)}</p>`;
    }
    case "table":
      return displayBundle(block.table)["text/html"];
    case "figure":
      return `<p>${runsHtml(block.figure.alt)}</p>`;
  }
}

/**
 * Added or removed text. A subscript carries a mark of its own: the line under the text around it
 * would go through it, and read as struck.
 */
function marked({ text, change }: ProvisionPiece): string {
  if (change === undefined) return runsHtml(text);
  const tag = change === "inserted" ? "ins" : "del";
  const pieces = runsHtml(text).split(/<sub>(.*?)<\/sub>/);
  const shown = pieces.map((piece, k) =>
    piece === ""
      ? ""
      : k % 2 === 0
        ? `<${tag}>${piece}</${tag}>`
        : `<sub><${tag}>${piece}</${tag}></sub>`,
  );
  return `${strong(CHANGE_WORDS[change])} ${shown.join("")}`;
}

function strong(word: string): string {
  return `<strong>${word.trimEnd()}</strong>`;
}
