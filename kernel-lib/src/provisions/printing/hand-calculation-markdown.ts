import type { Trace } from "../model/trace";
import { calculation, type CalculationContext } from "./hand-calculation";

/**
 * A hand calculation as Markdown tables: inputs, steps with formula and numbers, limits, result and
 * caution.
 */
export function handCalculationMarkdown(trace: Trace, context: CalculationContext = {}): string {
  const { title, source, parts, result, notes, governing, caution } = calculation(trace, context);
  const blocks = [`### ${plain(title)}`, plain(source)];
  for (const part of parts) {
    if (part.heading !== "") blocks.push(`#### ${plain(part.heading)}`);
    if (part.inputs.length > 0)
      blocks.push(
        grid(
          ["Input", "Value", "Meaning", "Clause"],
          part.inputs.map((line) => [line.symbol, line.value, line.meaning, line.clause]),
        ),
      );
    if (part.asAbove.length > 0) blocks.push(plain(`Inputs as above: ${part.asAbove.join(", ")}.`));
    if (part.defaults.length > 0)
      blocks.push(plain(`Options at their defaults: ${part.defaults.join(", ")}.`));
    blocks.push(
      grid(
        ["Symbol", "Formula", "With numbers", "Value", "Clause", "Meaning"],
        part.steps.map((line) => [
          line.symbol,
          line.formula,
          line.substituted,
          line.value,
          line.clause,
          line.meaning,
        ]),
      ),
    );
    if (part.limits.length > 0)
      blocks.push(
        grid(
          ["Limit", "Clause", "Verdict"],
          part.limits.map(({ says, clause, verdict }) => [says, clause, verdict]),
        ),
      );
  }
  blocks.push(
    `**${plain(result)}**`,
    ...notes.map((note) => `Note: ${plain(note)}`),
    ...(governing === "" ? [] : [plain(governing)]),
    ...(caution === "" ? [] : [`*${plain(caution)}*`]),
  );
  return blocks.join("\n\n");
}

function grid(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const row = (cells: readonly string[]): string => `| ${cells.map(plain).join(" | ")} |`;
  return [row(head), `|${head.map(() => " --- ").join("|")}|`, ...rows.map(row)].join("\n");
}

/** Characters that Markdown would read as marks are escaped; ids and remarks come from files. */
function plain(text: string): string {
  return text.replace(/[\\`*_[\]<>|#~$]/g, "\\$&").replace(/\s*\n\s*/g, " ");
}
