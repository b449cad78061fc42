import { latexText, symbolLatex } from "../../formula";
import type { Trace } from "../model/trace";
import {
  calculation,
  type CalculationContext,
  type CalculationLine,
  type CalculationPart,
} from "./hand-calculation";
import { symbolsInWords } from "./symbols-in-words";

/**
 * A hand calculation as LaTeX for a document that loads amsmath, array, graphicx and longtable:
 * inputs, each step on lines of its own (clause and meaning, symbol = formula, = numbers, = value),
 * limits, result and caution. Long products break after a factor; what cannot break is set smaller.
 */
export function handCalculationLatex(trace: Trace, context: CalculationContext = {}): string {
  const { title, source, parts, result, notes, governing, caution } = calculation(trace, context);
  return [
    "% needs \\usepackage{amsmath,array,graphicx,longtable}",
    FITTED,
    "\\begingroup\\raggedright\\setlength{\\parindent}{0pt}",
    `\\subsection*{${latexText(title)}}`,
    `${words(source)}\\par`,
    ...parts.flatMap(partLatex),
    `\\medskip\\textbf{${words(result)}}\\par`,
    ...notes.map((note) => `Note: ${words(note)}\\par`),
    ...(governing === "" ? [] : [`${words(governing)}\\par`]),
    ...(caution === "" ? [] : [`\\emph{${words(caution)}}\\par`]),
    "\\endgroup",
  ].join("\n");
}

function partLatex({
  heading,
  inputs,
  asAbove,
  defaults,
  steps,
  limits,
}: CalculationPart): string[] {
  return [
    ...(heading === "" ? [] : [`\\subsubsection*{${words(heading)}}`]),
    ...(inputs.length === 0
      ? []
      : [
          "\\begin{longtable}[l]{@{}>{\\raggedright}p{0.18\\linewidth} >{\\raggedright}p{0.25\\linewidth} >{\\raggedright\\arraybackslash}p{0.5\\linewidth}@{}}",
          "\\multicolumn{3}{@{}l}{\\textbf{Inputs}} \\\\",
          ...inputs.map(
            (line) =>
              `${symbolWords(line.symbolName)} & ${words(line.value)} & ${words(aside(line))} \\\\`,
          ),
          "\\end{longtable}",
        ]),
    ...(asAbove.length === 0 ? [] : [`${words(`Inputs as above: ${asAbove.join(", ")}.`)}\\par`]),
    ...(defaults.length === 0
      ? []
      : [`${words(`Options at their defaults: ${defaults.join(", ")}.`)}\\par`]),
    "\\textbf{Steps}\\par\\nopagebreak",
    ...steps.map(stepLatex),
    ...(limits.length === 0
      ? []
      : [
          "\\medskip\\textbf{Limits}",
          "\\begin{itemize}",
          ...limits.map(
            ({ verdict, clause, says }) => `\\item ${words(`${verdict}: ${says} [${clause}]`)}`,
          ),
          "\\end{itemize}",
        ]),
  ];
}

/**
 * One step: what it is and its clause, then symbol = formula, = numbers, = value, each on a line of
 * its own.
 */
function stepLatex(line: CalculationLine): string {
  const formulas = [line.formulaLatex, line.substitutedLatex].filter(
    (latex, k, all) => latex !== "" && latex !== all[k - 1],
  );
  const chain = [
    ...formulas.map((latex) => `= {}$ ${fitted(latex)}`),
    `= {}$ \\textbf{${words(line.value)}}`,
  ];
  const rows = chain.map(
    (latex, k) =>
      `\\hangindent=3em\\hspace*{1em}${k === 0 ? `$${symbolLatex(line.symbolName)} ` : "\\hspace*{1em}$"}${latex}\\par`,
  );
  return ["\\smallskip", `${words(aside(line))}\\par\\nopagebreak`, ...rows].join("\n");
}

const FITTED =
  "\\providecommand{\\fitted}[1]{\\begingroup\\setbox0\\hbox{#1}\\ifdim\\wd0>0.88\\linewidth\\resizebox{0.88\\linewidth}{!}{\\box0}\\else\\box0\\fi\\endgroup}";
/** Characters within one pair of brackets that still stand on a line. */
const BRACKET = 60;

/**
 * A product may break after any factor: mathematics in a line breaks at its sums only. Brackets of
 * one height let what is in them break. Nothing breaks within a case distinction or tall brackets
 * around fractions: where those are long, the whole is made as small as the line needs.
 */
function fitted(latex: string): string {
  if (
    latex.includes("\\begin{cases}") ||
    (latex.includes("\\frac") && longestBracket(latex) > BRACKET)
  )
    return `\\fitted{$\\displaystyle ${latex}$}`;
  const open = latex.includes("\\frac")
    ? latex
    : latex.replaceAll("\\left(", "\\bigl(").replaceAll("\\right)", "\\bigr)");
  return `$\\displaystyle ${open.replaceAll(" \\, ", " \\,\\allowbreak ").replaceAll(" \\cdot ", " \\cdot\\allowbreak ").replaceAll(",\\; ", ",\\;\\allowbreak ")}$`;
}

/** Characters that are seen within the longest outermost pair of tall brackets. */
function longestBracket(latex: string): number {
  let [depth, from, most] = [0, 0, 0];
  for (const { 0: bracket, index } of latex.matchAll(/\\left\(|\\right\)/g)) {
    if (bracket === "\\left(" && depth++ === 0) from = index;
    if (bracket === "\\right)" && --depth === 0)
      most = Math.max(
        most,
        latex.slice(from, index).replace(/\\[a-zA-Z]+|[{}_^\\,; ]/g, "").length,
      );
  }
  return most;
}

/** A symbol in a table; a name made of words breaks like words. */
function symbolWords(name: string): string {
  const latex = symbolLatex(name);
  return /^\\text\{([^{}]*)\}$/.exec(latex)?.[1] ?? `$${latex}$`;
}

function aside({ clause, meaning }: CalculationLine): string {
  return clause === "" ? meaning : `[${clause}] ${meaning}`;
}

/** Text in which every character stands for itself, symbols as in the formulas. */
function words(text: string): string {
  return latexText(symbolsInWords(text).replace(/\s+/g, " "));
}
