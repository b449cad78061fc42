import { symbolLatex, symbolRuns } from "../../formula";
import type { Trace } from "../model/trace";
import {
  calculation,
  type CalculationContext,
  type CalculationLine,
  type CalculationPart,
} from "./hand-calculation";
import { symbolsInWords } from "./symbols-in-words";

type Math = (latex: string) => string;

/**
 * A hand calculation as an HTML section: inputs and limits in tables, steps as a list with formulas
 * in MathML, which browsers print without any script, each carrying its LaTeX source as an
 * annotation.
 */
export async function handCalculationHtml(
  trace: Trace,
  context: CalculationContext = {},
): Promise<string> {
  const { title, source, parts, result, notes, governing, caution } = calculation(trace, context);
  // Loaded here since only printing needs it.
  const { default: temml } = await import("temml");
  const math: Math = (latex) => temml.renderToString(latex, { annotate: true });
  return [
    `<section class="hand-calculation"><h3>${escaped(title)}</h3><p>${escaped(source)}</p>`,
    ...parts.map((part) => partHtml(part, math)),
    `<p><strong>${escaped(result)}</strong></p>`,
    ...notes.map((note) => `<p>Note: ${sentence(note)}</p>`),
    ...(governing === "" ? [] : [`<p>${escaped(governing)}</p>`]),
    `${caution === "" ? "" : `<p><em>${escaped(caution)}</em></p>`}</section>`,
  ].join("\n");
}

function partHtml(part: CalculationPart, math: Math): string {
  const symbol = (line: CalculationLine): string => math(symbolLatex(line.symbolName));
  return [
    part.heading === "" ? "" : `<h4>${escaped(part.heading)}</h4>`,
    part.inputs.length === 0
      ? ""
      : grid(
          "Inputs",
          ["Symbol", "Value", "Meaning", "Clause"],
          part.inputs.map((line) => [
            symbol(line),
            escaped(line.value),
            sentence(line.meaning),
            escaped(line.clause),
          ]),
        ),
    part.asAbove.length === 0
      ? ""
      : `<p>${sentence(`Inputs as above: ${part.asAbove.join(", ")}.`)}</p>`,
    part.defaults.length === 0
      ? ""
      : `<p>${sentence(`Options at their defaults: ${part.defaults.join(", ")}.`)}</p>`,
    `<p><strong>Steps</strong></p>`,
    `<ol class="steps" style="list-style:none;padding-left:0">${part.steps.map((line) => stepHtml(line, symbol(line), math)).join("\n")}</ol>`,
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
function stepHtml(line: CalculationLine, symbol: string, math: Math): string {
  const equals = [line.formulaLatex, line.substitutedLatex]
    .filter((latex, k, all) => latex !== "" && latex !== all[k - 1])
    .map((latex) => `= ${math(`\\displaystyle ${latex}`)}`);
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
  // otherwise.
  const cells = (row: readonly string[], tag: "td" | "th"): string =>
    `<tr>${row.map((cell) => `<${tag}${tag === "th" ? ' scope="col"' : ""} style="text-align:left">${cell}</${tag}>`).join("")}</tr>`;
  return `<table style="table-layout:auto"><caption>${caption}</caption><thead>${cells(head, "th")}</thead><tbody>${rows.map((row) => cells(row, "td")).join("\n")}</tbody></table>`;
}

/** A sentence whose symbols have their subscripts set lower. */
function sentence(text: string): string {
  const tag = { line: "", symbol: "i", sub: "sub" } as const;
  return symbolRuns(symbolsInWords(text))
    .map(({ text: piece, script }) =>
      script === "line" ? escaped(piece) : `<${tag[script]}>${escaped(piece)}</${tag[script]}>`,
    )
    .join("");
}

function escaped(text: string): string {
  return text
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;");
}
