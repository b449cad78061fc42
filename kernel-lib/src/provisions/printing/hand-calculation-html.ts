import { runsHtml, symbolHtml, symbolLatex } from "../../formula";
import type { Trace } from "../model/trace";
import {
  calculation,
  type CalculationContext,
  type CalculationLine,
  type CalculationPart,
} from "./hand-calculation";
import { symbolsInWords } from "./symbols-in-words";

/** How the formulas of a calculation are written: a symbol, and the members of its equation. */
interface FormulaWriter {
  readonly symbol: (name: string) => string;
  readonly members: (line: CalculationLine) => readonly string[];
}

/** Lines that any page shows, also a notebook that is not trusted, which strips MathML. */
const IN_LINES: FormulaWriter = {
  symbol: symbolHtml,
  members: ({ formulaHtml, substitutedHtml }) => [formulaHtml, substitutedHtml],
};

/**
 * A hand calculation as an HTML section: inputs and limits in tables, steps as a list with formulas
 * in MathML, which browsers print without any script.
 */
export async function handCalculationHtml(
  trace: Trace,
  context: CalculationContext = {},
): Promise<string> {
  // Loaded here since only printing needs it.
  const { default: temml } = await import("temml");
  const math = (latex: string): string => (latex === "" ? "" : temml.renderToString(latex));
  return sectionHtml(trace, context, {
    symbol: (name) => math(symbolLatex(name)),
    members: (line) =>
      [line.formulaLatex, line.substitutedLatex].map((latex) =>
        latex === "" ? "" : math(`\\displaystyle ${latex}`),
      ),
  });
}

/**
 * The same section as a notebook shows it: formulas as lines of text with raised and lowered
 * letters. A notebook that is not trusted strips MathML and styles; what is left must read the same.
 */
export function handCalculationNotebookHtml(
  trace: Trace,
  context: CalculationContext = {},
): string {
  return sectionHtml(trace, context, IN_LINES);
}

function sectionHtml(trace: Trace, context: CalculationContext, write: FormulaWriter): string {
  const { title, source, parts, result, notes, governing, caution } = calculation(trace, context);
  return [
    `<section class="hand-calculation"><h3>${escaped(title)}</h3><p>${escaped(source)}</p>`,
    ...parts.map((part) => partHtml(part, write)),
    `<p><strong>${escaped(result)}</strong></p>`,
    ...notes.map((note) => `<p>Note: ${sentence(note)}</p>`),
    ...(governing === "" ? [] : [`<p>${escaped(governing)}</p>`]),
    `${caution === "" ? "" : `<p><em>${escaped(caution)}</em></p>`}</section>`,
  ].join("\n");
}

function partHtml(part: CalculationPart, write: FormulaWriter): string {
  const clauses = part.inputs.some(({ clause }) => clause !== "");
  return [
    part.heading === "" ? "" : `<h4>${escaped(part.heading)}</h4>`,
    part.inputs.length === 0
      ? ""
      : grid(
          "Inputs",
          ["Symbol", "Value", "Meaning", ...(clauses ? ["Clause"] : [])],
          part.inputs.map((line) => [
            write.symbol(line.symbolName),
            escaped(line.value),
            sentence(line.meaning),
            ...(clauses ? [escaped(line.clause)] : []),
          ]),
        ),
    part.asAbove.length === 0
      ? ""
      : `<p>${sentence(`Inputs as above: ${part.asAbove.join(", ")}.`)}</p>`,
    part.defaults.length === 0
      ? ""
      : `<p>${sentence(`Options at their defaults: ${part.defaults.join(", ")}.`)}</p>`,
    `<p><strong>Steps</strong></p>`,
    `<ol class="steps" style="list-style:none;padding-left:0">${part.steps.map((line) => stepHtml(line, write)).join("\n")}</ol>`,
    part.limits.length === 0
      ? ""
      : grid(
          "Limits",
          ["Verdict", "Clause", "Limit"],
          part.limits.map(({ says, clause, verdict }) => [
            escaped(verdict),
            escaped(clause),
            sentence(says),
          ]),
        ),
  ].join("\n");
}

/**
 * One step: what it is and its clause, then symbol = formula, = numbers, = value, each on a line of
 * its own that may be as wide as the page.
 */
function stepHtml(line: CalculationLine, write: FormulaWriter): string {
  const symbol = write.symbol(line.symbolName);
  const equals = write
    .members(line)
    .filter((text, k, all) => text !== "" && text !== all[k - 1])
    .map((text) => `= ${text}`);
  const chain = [...equals, `= <strong>${escaped(line.value)}</strong>`];
  const rows = chain.map(
    (text, k) =>
      `<div style="overflow:auto hidden;padding:.1rem 0 .1rem ${k === 0 ? 0 : 3}rem">${k === 0 ? `${symbol} ` : ""}${text}</div>`,
  );
  return `<li style="margin:.75rem 0;break-inside:avoid"><div>${line.clause === "" ? "" : `[${escaped(line.clause)}] `}${sentence(line.meaning)}</div>${rows.join("")}</li>`;
}

function grid(
  caption: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
): string {
  // Notebook pages align cells to the right and give every column the same width unless told
  // otherwise; where they strip styles, only a block inside the cell is told otherwise.
  const cells = (row: readonly string[], tag: "td" | "th"): string =>
    `<tr>${row.map((cell) => `<${tag}${tag === "th" ? ' scope="col"' : ""} style="text-align:left"><div align="left">${cell}</div></${tag}>`).join("")}</tr>`;
  return `<table style="table-layout:auto"><caption>${caption}</caption><thead>${cells(head, "th")}</thead><tbody>${rows.map((row) => cells(row, "td")).join("\n")}</tbody></table>`;
}

/** A sentence whose symbols have their subscripts set lower. */
function sentence(text: string): string {
  return runsHtml(symbolsInWords(text));
}

function escaped(text: string): string {
  return text
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;");
}
