import { symbolLatex } from "../../formula";
import type { Trace } from "../model/trace";
import { calculation, type CalculationContext, type CalculationLine } from "./hand-calculation";

/**
 * A hand calculation as LaTeX for a document that loads amsmath, longtable and array: inputs, each step as symbol = formula =
 * numbers = value with its clause, limits, result and caution. Long formulas are left to the reader's line breaking.
 */
export function handCalculationLatex(trace: Trace, context: CalculationContext = {}): string {
  const { title, source, parts, result, notes, governing, caution } = calculation(trace, context);
  const lines = [`\\subsection*{${latexText(title)}}`, `${latexText(source)}\n`];
  for (const part of parts) {
    if (part.heading !== "") lines.push(`\\subsubsection*{${latexText(part.heading)}}`);
    lines.push("\\begin{longtable}{@{}>{$}l<{$} l p{0.55\\linewidth}@{}}", ...part.inputs.map((line) => `${symbolLatex(line.symbolName)} & ${latexText(line.value)} & ${latexText(aside(line))} \\\\`), "\\end{longtable}");
    for (const line of part.steps) {
      const chain = [line.formulaLatex, line.substitutedLatex].filter((text) => text !== "").map((text) => `$= ${text}$`);
      lines.push(`\\noindent $${symbolLatex(line.symbolName)}$ ${chain.join(" ")} $=$ ${latexText(line.value)} \\hfill ${latexText(aside(line))}\n`);
    }
    if (part.limits.length > 0) lines.push("\\begin{itemize}", ...part.limits.map(({ verdict, clause, says }) => `\\item ${latexText(`${verdict}: ${says} [${clause}]`)}`), "\\end{itemize}");
  }
  lines.push(`\\textbf{${latexText(result)}}\n`, ...notes.map((note) => `Note: ${latexText(note)}\n`), ...(governing === "" ? [] : [`${latexText(governing)}\n`]), `\\emph{${latexText(caution)}}`);
  return lines.join("\n");
}

function aside({ clause, meaning }: CalculationLine): string {
  return clause === "" ? meaning : `[${clause}] ${meaning}`;
}

const MARKS: Readonly<Record<string, string>> = {
  "\\": "\\textbackslash{}", "{": "\\{", "}": "\\}", "&": "\\&", "%": "\\%", $: "\\$", "#": "\\#", _: "\\_", "^": "\\textasciicircum{}", "~": "\\textasciitilde{}",
  "²": "$^2$", "³": "$^3$", "×": "$\\times$", "√": "$\\surd$", "≥": "$\\ge$", "≤": "$\\le$", "≠": "$\\ne$", "∞": "$\\infty$", "−": "$-$", "°": "$^\\circ$", "–": "--", "<": "$<$", ">": "$>$", "'": "'",
};
const GREEK: Readonly<Record<string, string>> = { α: "alpha", β: "beta", γ: "gamma", δ: "delta", ε: "varepsilon", η: "eta", λ: "lambda", μ: "mu", π: "pi", ρ: "rho", σ: "sigma", τ: "tau", φ: "phi", χ: "chi", ψ: "psi", ω: "omega" };

/** Text in which every character stands for itself. */
function latexText(text: string): string {
  return [...text.replace(/\s+/g, " ")].map((letter) => MARKS[letter] ?? (GREEK[letter] ? `$\\${GREEK[letter]}$` : letter)).join("");
}
