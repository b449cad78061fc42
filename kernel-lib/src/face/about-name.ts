import { expectedInColumn, TEST_COLUMNS } from "../dataset";
import { clauseOf, CODES, type CodeDefinition, type ProvisionDefinition } from "../provisions";

/**
 * What a name between quotes stands for: a code with its edition, a provision with its clause and
 * formulas, or a column with its meaning. The kernel shows it on hover; undefined for other texts.
 * @example aboutName("aci318-19/17.6.5")
 */
export function aboutName(name: string): string | undefined {
  const code = CODES.find(({ id }) => id === name);
  if (code) return aboutCode(code);
  for (const { provisions, title } of CODES) {
    const provision = provisions.find(({ id }) => id === name);
    if (provision) return aboutProvision(provision, title);
  }
  const column = TEST_COLUMNS.find((one) => one.name === name);
  return column && `${name}: ${column.meaning} (${expectedInColumn(column)})`;
}

function aboutCode({ title, edition, system, covers }: CodeDefinition): string {
  return `${title}. Edition: ${edition}. Units: ${system.name}.\n\nCovers ${covers}`;
}

function aboutProvision(provision: ProvisionDefinition, codeTitle: string): string {
  const { id, title, levels, modes, steps, capacity } = provision;
  const lines = steps.map(({ symbol, formula, clause }) => `${symbol} = ${formula}   (${clause})`);
  return [
    `${codeTitle}, ${clauseOf(id)}: ${title}`,
    `Modes: ${modes.join(", ").replaceAll("_", " ")}. Levels: ${levels.join(", ")}.`,
    [...lines, `capacity = ${capacity}`].join("\n"),
  ].join("\n\n");
}

(globalThis as Record<symbol, unknown>)[Symbol.for("code-comparison.about")] = aboutName;
