import { symbolLatex, toLatex } from "../../formula";
import { escapeLatex } from "../../tables";
import { CHANGE_WORDS, type Block, type ProvisionPiece } from "../packet/document";

/** Blocks as LaTeX: added text by `\uline`, removed text by `\sout` of the package ulem. */
export function blocksLatex(blocks: readonly Block[]): string {
  return `% needs \\usepackage{amsmath,booktabs} and \\usepackage[normalem]{ulem}\n${blocks.map(blockLatex).filter((text) => text !== "").join("\n\n")}\n`;
}

function blockLatex(block: Block): string {
  switch (block.kind) {
    case "paragraph":
      return escapeLatex(block.text);
    case "caution":
      return `\\noindent\\fbox{\\parbox{0.95\\linewidth}{\\textbf{Caution.} ${escapeLatex(block.text)}}}`;
    case "list":
      return `\\begin{itemize}\n${block.items.map((item) => `  \\item ${escapeLatex(item)}`).join("\n")}\n\\end{itemize}`;
    case "provision":
      return [block.title === "" ? "" : `\\paragraph{${escapeLatex(block.title)}}`, block.pieces.map(marked).join("")].filter((text) => text !== "").join("\n");
    case "formula": {
      const equation = `\\[ ${symbolLatex(block.symbol)} = ${toLatex(block.expression)} \\]`;
      return block.change ? `${marked({ text: CHANGE_WORDS[block.change].trimEnd(), change: block.change })}\n${equation}` : equation;
    }
    case "table":
      return block.table.toLatex().trimEnd();
    case "figure":
      return escapeLatex(block.figure.alt);
  }
}

function marked({ text, change }: ProvisionPiece): string {
  const shown = escapeLatex(text);
  return change === "inserted" ? `\\uline{${shown}}` : change === "deleted" ? `\\sout{${shown}}` : shown;
}
