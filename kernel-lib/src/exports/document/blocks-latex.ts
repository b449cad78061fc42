import { latexText, symbolLatex, toLatex } from "../../formula";
import { CHANGE_WORDS, type Block, type DocumentModel, type ProvisionPiece } from "./document";

const PACKAGES = "\\usepackage{amsmath,array,booktabs,longtable,pdflscape,rotating}";
/** Marks for a document without the package ulem: new text bold, a removed equation struck. */
const MARKS = [
  "\\providecommand{\\uline}[1]{\\textbf{#1}}",
  "\\providecommand{\\sout}[1]{\\begingroup\\setbox0\\hbox{#1}\\rlap{\\raise0.55ex\\hbox to\\wd0{\\hrulefill}}\\box0\\endgroup}",
];

/**
 * Blocks as LaTeX: added text by `\uline`, removed text by `\sout` of the package ulem where it is
 * loaded, each after the word that says so.
 */
export function blocksLatex(blocks: readonly Block[]): string {
  return [
    `% needs ${PACKAGES}`,
    "% with \\usepackage[normalem]{ulem} new text is underlined, else bold",
    ...MARKS,
    written(blocks),
    "",
  ].join("\n");
}

/** A document as LaTeX that compiles as it is. */
export function documentLatex({
  title,
  subtitle,
  stamp,
  caution,
  sections,
}: DocumentModel): string {
  const head = [
    "\\documentclass[a4paper]{article}",
    "\\usepackage[T1]{fontenc}",
    "\\usepackage[margin=25mm]{geometry}",
    PACKAGES,
    "\\IfFileExists{ulem.sty}{\\usepackage[normalem]{ulem}}{}",
    ...MARKS,
    "\\begin{document}",
  ];
  const front = [
    `{\\Large\\bfseries\\raggedright ${latexText(title)}\\par}`,
    `${latexText(subtitle)}\\par`,
    `\\emph{${latexText(stamp)}}\\par\\medskip`,
    blockLatex({ kind: "caution", text: caution }),
  ];
  return [
    ...head,
    ...front,
    ...sections.flatMap((section) => [
      `\n\\section{${latexText(section.title)}}`,
      written(section.blocks),
    ]),
    "\\end{document}",
    "",
  ].join("\n");
}

function written(blocks: readonly Block[]): string {
  return blocks
    .map(blockLatex)
    .filter((text) => text !== "")
    .join("\n\n");
}

function blockLatex(block: Block): string {
  switch (block.kind) {
    case "paragraph":
      return latexText(block.text);
    case "caution":
      return `\\par\\noindent\\fbox{\\parbox{0.95\\linewidth}{\\textbf{Caution.} ${latexText(block.text)}}}\\par`;
    case "list":
      return `\\begin{itemize}\n${block.items.map((item) => `  \\item ${latexText(item)}`).join("\n")}\n\\end{itemize}`;
    case "provision":
      return [
        block.title === "" ? "" : `\\subsection*{${latexText(block.title)}}`,
        block.pieces.map(marked).join(""),
      ]
        .filter((text) => text !== "")
        .join("\n");
    case "formula": {
      const equation = `${symbolLatex(block.symbol)} = ${toLatex(block.expression)}`;
      if (!block.change) return `\\[ ${equation} \\]`;
      // The line of \uline has a fixed depth and would run through a fraction.
      const line = { inserted: "\\underline", deleted: "\\sout" }[block.change];
      return `\\par\\noindent\\textbf{${CHANGE_WORDS[block.change].trimEnd()}} ${line}{$\\displaystyle ${equation}$}\\par\\smallskip`;
    }
    case "table":
      return block.table.toLatex().trimEnd();
    case "figure":
      return `\\emph{Figure (drawn in the other formats).} ${latexText(block.figure.alt)}`;
  }
}

function marked({ text, change }: ProvisionPiece): string {
  const shown = latexText(text);
  if (change === undefined) return shown;
  return `\\textbf{${CHANGE_WORDS[change].trimEnd()}} ${change === "inserted" ? "\\uline" : "\\sout"}{${shown}}`;
}
