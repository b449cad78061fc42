import { cellText, oneLine } from "./cell-text";
import { alignOf, headingOf } from "./column";
import { notesOf } from "./notes";
import type { TableContent } from "./table";

const letters = { left: "l", right: "r", center: "c" } as const;

/**
 * A LaTeX table with the rules of the `booktabs` package. It compiles with any engine that reads UTF-8; the minus
 * sign, the multiplication sign and raised digits are written as mathematics.
 */
export function toLatex(table: TableContent): string {
  const line = (cells: readonly string[]): string => `  ${cells.join(" & ")} \\\\`;
  const notes = notesOf(table).map((note) => `\\par\\footnotesize ${escapeLatex(note)}`);
  return [
    "\\begin{table}[htbp]",
    "\\centering",
    `\\caption{${escapeLatex(table.caption ?? table.title)}}`,
    `\\label{tab:${table.id}}`,
    `\\begin{tabular}{${table.columns.map((column) => letters[alignOf(column)]).join("")}}`,
    "  \\toprule",
    line(table.columns.map((column) => escapeLatex(headingOf(column)))),
    "  \\midrule",
    ...table.rows.map((row) => line(table.columns.map((column) => escapeLatex(cellText(column, row[column.key]))))),
    "  \\bottomrule",
    "\\end{tabular}",
    ...notes,
    "\\end{table}",
    "",
  ].join("\n");
}

const commands: Record<string, string> = {
  "\\": "\\textbackslash{}",
  "{": "\\{",
  "}": "\\}",
  $: "\\$",
  "&": "\\&",
  "#": "\\#",
  "%": "\\%",
  _: "\\_",
  "^": "\\textasciicircum{}",
  "~": "\\textasciitilde{}",
  "<": "\\textless{}",
  ">": "\\textgreater{}",
  "|": "\\textbar{}",
  // A row that starts with a bracket would be read as the optional argument of the line end before it.
  "[": "{[}",
  "]": "{]}",
  "−": "$-$",
  "×": "$\\times$",
  "–": "--",
  "²": "$^2$",
  "³": "$^3$",
};

/** Makes every character stand for itself in LaTeX text. */
export function escapeLatex(text: string): string {
  const raised = "⁰¹²³⁴⁵⁶⁷⁸⁹";
  return oneLine(text)
    .replace(/[\\{}$&#%_^~<>|[\]−×–²³]/g, (character) => commands[character] ?? character)
    .replace(/[⁻⁰¹⁴-⁹]+/g, (digits) => `$^{${[...digits].map((d) => (d === "⁻" ? "-" : String(raised.indexOf(d)))).join("")}}$`);
}
