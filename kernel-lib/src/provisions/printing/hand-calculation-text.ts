import type { Trace } from "../model/trace";
import { calculation, type CalculationContext, type CalculationLine } from "./hand-calculation";

/**
 * A hand calculation as plain text: per part the inputs, every step as symbol = formula = numbers = value, the limits,
 * the result and the caution.
 * @example handCalculationText(trace(code("aci318-19"), provision, tests, 0))
 */
export function handCalculationText(trace: Trace, context: CalculationContext = {}): string {
  const { title, source, parts, result, notes, governing, caution } = calculation(trace, context);
  const lines = [title, "=".repeat(title.length), source];
  for (const part of parts) {
    const width = Math.min(18, Math.max(...[...part.inputs, ...part.steps].map(({ symbol }) => symbol.length)));
    if (part.heading !== "") lines.push("", part.heading);
    lines.push("", "Inputs", ...part.inputs.map((line) => `  ${line.symbol.padEnd(width)} = ${line.value}${aside(line)}`));
    lines.push("", "Steps", ...part.steps.flatMap((line) => stepLines(line, width)));
    if (part.limits.length > 0) lines.push("", "Limits", ...part.limits.map(({ verdict, clause, says }) => `  ${verdict}: ${says} [${clause}]`));
  }
  lines.push("", result, ...notes.map((note) => `Note: ${note}`), ...(governing === "" ? [] : [governing]), "", caution);
  return lines.join("\n");
}

function stepLines(line: CalculationLine, width: number): string[] {
  const under = " ".repeat(width + 2);
  const chain = [line.formula, line.substituted, line.value].filter((text, k, all) => text !== "" && text !== all[k - 1]);
  return chain.map((text, k) => `${k === 0 ? `  ${line.symbol.padEnd(width)}` : under} = ${text}${k === chain.length - 1 ? aside(line) : ""}`);
}

function aside({ clause, meaning }: CalculationLine): string {
  return `   ${clause === "" ? "" : `[${clause}] `}${meaning}`;
}
