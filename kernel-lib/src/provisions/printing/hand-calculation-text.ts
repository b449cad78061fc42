import { brokenLine } from "../../formula";
import type { Trace } from "../model/trace";
import { calculation, type CalculationContext, type CalculationLine } from "./hand-calculation";

/**
 * A hand calculation as plain text: per part the inputs, every step as symbol = formula = numbers =
 * value, the limits, the result and the caution.
 * @example handCalculationText(trace(code("aci318-19"), provision, tests, 0))
 */
export function handCalculationText(trace: Trace, context: CalculationContext = {}): string {
  const { title, source, parts, result, notes, governing, caution } = calculation(trace, context);
  const page = context.width ?? WIDTH;
  const broken = (line: string, indent: number): string => brokenLine(line, page, indent);
  const lines = [broken(title, 0), "=".repeat(Math.min(title.length, page)), broken(source, 0)];
  for (const part of parts) {
    const width = Math.min(
      18,
      Math.max(...[...part.inputs, ...part.steps].map(({ symbol }) => symbol.length)),
    );
    if (part.heading !== "") lines.push("", part.heading);
    if (part.inputs.length > 0)
      lines.push(
        "",
        "Inputs",
        ...part.inputs.map((line) =>
          broken(`  ${line.symbol.padEnd(width)} = ${line.value}${aside(line)}`, width + 5),
        ),
      );
    if (part.asAbove.length > 0)
      lines.push("", broken(`Inputs as above: ${part.asAbove.join(", ")}.`, 2));
    if (part.defaults.length > 0)
      lines.push(broken(`Options at their defaults: ${part.defaults.join(", ")}.`, 2));
    lines.push("", "Steps", ...part.steps.flatMap((line) => stepLines(line, width, page, broken)));
    if (part.limits.length > 0)
      lines.push(
        "",
        "Limits",
        ...part.limits.map(({ verdict, clause, says }) =>
          broken(`  ${verdict}: ${says} [${clause}]`, 4),
        ),
      );
  }
  lines.push(
    "",
    broken(result, 2),
    ...notes.map((note) => broken(`Note: ${note}`, 2)),
    ...(governing === "" ? [] : [broken(governing, 0)]),
    ...(caution === "" ? [] : ["", broken(caution, 0)]),
  );
  return lines.join("\n").replace(/ +\n/g, "\n");
}

/** Characters of a line where none are asked for. */
const WIDTH = 100;

/** A step on one line where symbol, formula, numbers and value fit, else each on its own. */
function stepLines(
  line: CalculationLine,
  width: number,
  page: number,
  broken: (line: string, indent: number) => string,
): string[] {
  const under = " ".repeat(width + 2);
  const chain = [line.formula, line.substituted, line.value].filter(
    (text, k, all) => text !== "" && text !== all[k - 1],
  );
  const joined = `  ${line.symbol.padEnd(width)} = ${chain.join(" = ")}`;
  if (joined.length <= page) return [broken(`${joined}${aside(line)}`, width + 5)];
  return chain.map((text, k) =>
    broken(
      `${k === 0 ? `  ${line.symbol.padEnd(width)}` : under} = ${text}${k === chain.length - 1 ? aside(line) : ""}`,
      width + 5,
    ),
  );
}

function aside({ clause, meaning }: CalculationLine): string {
  return `   ${clause === "" ? "" : `[${clause}] `}${meaning}`;
}
