import { symbolText, toText } from "../../formula";
import type { Block, ProvisionPiece } from "../packet/document";

/** Blocks as plain text: added text between [+ and +], removed text between [- and -]. */
export function blocksText(blocks: readonly Block[]): string {
  return `${blocks.map(blockText).filter((text) => text !== "").join("\n\n")}\n`;
}

/** Marks added and removed text for a reader without underlines. */
export function markedText({ text, change }: ProvisionPiece): string {
  return change === "inserted" ? `[+${text}+]` : change === "deleted" ? `[-${text}-]` : text;
}

function blockText(block: Block): string {
  switch (block.kind) {
    case "paragraph":
      return block.text;
    case "caution":
      return `CAUTION. ${block.text}`;
    case "list":
      return block.items.map((item) => `  ${item}`).join("\n");
    case "provision":
      return [block.title, block.pieces.map(markedText).join("")].filter((text) => text !== "").join("\n");
    case "formula":
      return `  ${markedText({ text: `${symbolText(block.symbol)} = ${toText(block.expression)}`, ...(block.change ? { change: block.change } : {}) })}`;
    case "table":
      return block.table.toText().trimEnd();
    case "figure":
      return block.figure.alt;
  }
}
