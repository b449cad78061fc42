import { brokenLine, symbolText, toText } from "../../formula";
import type { Block, ProvisionPiece } from "./document";

/** Blocks as plain text: added text between [+ and +], removed text between [- and -]. */
export function blocksText(blocks: readonly Block[], width = Infinity): string {
  return `${blocks
    .map((block) => blockText(block, width))
    .filter((text) => text !== "")
    .join("\n\n")}\n`;
}

/** Marks added and removed text for a reader without underlines. */
export function markedText({ text, change }: ProvisionPiece): string {
  return change === "inserted" ? `[+${text}+]` : change === "deleted" ? `[-${text}-]` : text;
}

function blockText(block: Block, width: number): string {
  switch (block.kind) {
    case "paragraph":
      return brokenLine(block.text, width, 0);
    case "caution":
      return brokenLine(`CAUTION. ${block.text}`, width, 0);
    case "list":
      return block.items.map((item) => brokenLine(`  ${item}`, width, 4)).join("\n");
    case "provision":
      return [block.title, brokenLine(block.pieces.map(markedText).join(""), width, 0)]
        .filter((text) => text !== "")
        .join("\n");
    case "formula":
      return `  ${markedText({ text: `${symbolText(block.symbol)} = ${toText(block.expression)}`, ...(block.change ? { change: block.change } : {}) })}`;
    case "table":
      return block.table.toText(width).trimEnd();
    case "figure":
      return brokenLine(block.figure.alt, width, 0);
  }
}
