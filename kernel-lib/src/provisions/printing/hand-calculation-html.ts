import { symbolLatex } from "../../formula";
import type { Trace } from "../model/trace";
import { calculation, type CalculationContext, type CalculationLine, type CalculationPart } from "./hand-calculation";

type Math = (latex: string) => string;

/**
 * A hand calculation as an HTML section: tables with formulas in MathML, which browsers print without any script, each
 * carrying its LaTeX source as an annotation.
 */
export async function handCalculationHtml(trace: Trace, context: CalculationContext = {}): Promise<string> {
  const { title, source, parts, result, notes, governing, caution } = calculation(trace, context);
  // Loaded here since only printing needs it.
  const { default: temml } = await import("temml");
  const math: Math = (latex) => temml.renderToString(latex, { annotate: true });
  return [
    `<section class="hand-calculation"><h3>${escaped(title)}</h3><p>${escaped(source)}</p>`,
    ...parts.map((part) => partHtml(part, math)),
    `<p><strong>${escaped(result)}</strong></p>`,
    ...notes.map((note) => `<p>Note: ${escaped(note)}</p>`),
    ...(governing === "" ? [] : [`<p>${escaped(governing)}</p>`]),
    `<p><em>${escaped(caution)}</em></p></section>`,
  ].join("\n");
}

function partHtml(part: CalculationPart, math: Math): string {
  const symbol = (line: CalculationLine): string => math(symbolLatex(line.symbolName));
  return [
    part.heading === "" ? "" : `<h4>${escaped(part.heading)}</h4>`,
    grid("Inputs", ["Symbol", "Value", "Meaning", "Clause"], part.inputs.map((line) => [symbol(line), escaped(line.value), escaped(line.meaning), escaped(line.clause)])),
    grid("Steps", ["Symbol", "Formula", "With numbers", "Value", "Clause", "Meaning"], part.steps.map((line) => [
      symbol(line), math(line.formulaLatex), line.substitutedLatex === "" ? "" : math(line.substitutedLatex), escaped(line.value), escaped(line.clause), escaped(line.meaning),
    ])),
    part.limits.length === 0 ? "" : grid("Limits", ["Limit", "Clause", "Verdict"], part.limits.map(({ says, clause, verdict }) => [escaped(says), escaped(clause), escaped(verdict)])),
  ].join("\n");
}

function grid(caption: string, head: readonly string[], rows: readonly (readonly string[])[]): string {
  const cells = (row: readonly string[], tag: "td" | "th"): string => `<tr>${row.map((cell) => `<${tag}${tag === "th" ? ' scope="col"' : ""}>${cell}</${tag}>`).join("")}</tr>`;
  return `<table><caption>${caption}</caption><thead>${cells(head, "th")}</thead><tbody>${rows.map((row) => cells(row, "td")).join("\n")}</tbody></table>`;
}

function escaped(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");
}
