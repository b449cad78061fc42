import { symbolLatex, toLatex } from "../../formula";
import { CHANGE_WORDS, type Block, type ProvisionPiece } from "./document";

/**
 * Blocks as Markdown with TeX mathematics; added text in `<ins>`, removed text in `<del>`, as
 * notebooks show them.
 */
export function blocksMarkdown(blocks: readonly Block[]): string {
  return `${blocks
    .map(blockMarkdown)
    .filter((text) => text !== "")
    .join("\n\n")}\n`;
}

function blockMarkdown(block: Block): string {
  switch (block.kind) {
    case "paragraph":
      return escapeMarkdown(block.text);
    case "caution":
      return `> **Caution.** ${escapeMarkdown(block.text)}`;
    case "list":
      return block.items.map((item) => `- ${escapeMarkdown(item)}`).join("\n");
    case "provision":
      return [
        block.title === "" ? "" : `**${escapeMarkdown(block.title)}**`,
        block.pieces.map(marked).join(""),
      ]
        .filter((text) => text !== "")
        .join("\n\n");
    case "formula": {
      const equation = `$$${symbolLatex(block.symbol)} = ${toLatex(block.expression)}$$`;
      // A mark cannot be drawn through a displayed equation: a word stands before it.
      return block.change ? `**${CHANGE_WORDS[block.change].trimEnd()}**\n\n${equation}` : equation;
    }
    case "table":
      return block.table.toMarkdown().trimEnd();
    case "figure":
      return escapeMarkdown(block.figure.alt);
  }
}

function marked({ text, change }: ProvisionPiece): string {
  const shown = escapeMarkdown(text);
  if (change === undefined) return shown;
  return `**${CHANGE_WORDS[change].trimEnd()}** ${change === "inserted" ? `<ins>${shown}</ins>` : `<del>${shown}</del>`}`;
}

/** Text that stands for itself: no character starts a mark, a tag or mathematics. */
function escapeMarkdown(text: string): string {
  return text
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/[\\`*_[\]$~|]/g, "\\$&")
    .replace(/\s+/g, " ");
}
