import type { Trace } from "../model/trace";
import { calculation, type CalculationContext, type CalculationLine } from "./hand-calculation";

/**
 * A hand calculation as plain text: per part the inputs, every step as symbol = formula = numbers = value, the limits,
 * the result and the caution.
 * @example handCalculationText(trace(code("aci318-19"), provision, tests, 0))
 */
export function handCalculationText(trace: Trace, context: CalculationContext = {}): string {
  const { title, source, parts, result, notes, governing, caution } = calculation(trace, context);
  const lines = [broken(title, 0), "=".repeat(Math.min(title.length, WIDTH)), broken(source, 0)];
  for (const part of parts) {
    const width = Math.min(18, Math.max(...[...part.inputs, ...part.steps].map(({ symbol }) => symbol.length)));
    if (part.heading !== "") lines.push("", part.heading);
    lines.push("", "Inputs", ...part.inputs.map((line) => broken(`  ${line.symbol.padEnd(width)} = ${line.value}${aside(line)}`, width + 5)));
    lines.push("", "Steps", ...part.steps.flatMap((line) => stepLines(line, width)));
    if (part.limits.length > 0) lines.push("", "Limits", ...part.limits.map(({ verdict, clause, says }) => broken(`  ${verdict}: ${says} [${clause}]`, 4)));
  }
  lines.push("", broken(result, 2), ...notes.map((note) => broken(`Note: ${note}`, 2)), ...(governing === "" ? [] : [broken(governing, 0)]), "", broken(caution, 0));
  return lines.join("\n");
}

/** As wide as a page of typewriting in landscape. */
const WIDTH = 112;

/** A line broken at its spaces where it is wider than the page, further lines set in. */
function broken(line: string, indent: number): string {
  // A number keeps its unit.
  const [first = "", ...words] = line.trimStart().split(/ (?!(?:kN|kip|lb|N|mm²?|in\.²?|MPa|GPa|psi|ksi)\b)/);
  const lead = line.length - line.trimStart().length;
  const lines = [" ".repeat(lead) + first];
  for (const word of words) {
    const last = lines[lines.length - 1] ?? "";
    if (last.length + 1 + word.length > WIDTH && word !== "") lines.push(" ".repeat(indent) + word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines.join("\n");
}

function stepLines(line: CalculationLine, width: number): string[] {
  const under = " ".repeat(width + 2);
  const chain = [line.formula, line.substituted, line.value].filter((text, k, all) => text !== "" && text !== all[k - 1]);
  return chain.map((text, k) => broken(`${k === 0 ? `  ${line.symbol.padEnd(width)}` : under} = ${text}${k === chain.length - 1 ? aside(line) : ""}`, width + 5));
}

function aside({ clause, meaning }: CalculationLine): string {
  return `   ${clause === "" ? "" : `[${clause}] `}${meaning}`;
}
