import { cellText, oneLine } from "./cell-text";
import { alignOf, headingOf } from "./column";
import type { TableContent } from "./table-content";
import { notesOf } from "./notes";

const rule = { left: ":---", right: "---:", center: ":---:" } as const;

/** A table in GitHub-flavoured Markdown with the title above and the notes below. */
export function toMarkdown(table: TableContent): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
  const body = [
    line(table.columns.map((column) => escapeMarkdown(headingOf(column)))),
    line(table.columns.map((column) => rule[alignOf(column)])),
    ...table.rows.map((row) =>
      line(table.columns.map((column) => escapeMarkdown(cellText(column, row[column.key])))),
    ),
  ];
  const notes = notesOf(table).map((note) => `- ${escapeMarkdown(note)}`);
  return [
    `**${escapeMarkdown(table.caption ?? table.title)}**`,
    "",
    ...body,
    ...(notes.length > 0 ? ["", ...notes] : []),
    "",
  ].join("\n");
}

/** Makes every character stand for itself, since a notebook shows Markdown as HTML. */
export function escapeMarkdown(text: string): string {
  return oneLine(text)
    .replace(/[\\`*_[\]{}|~$]/g, "\\$&")
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/\b(https?|www)(?=[:.])/gi, "$1&#8203;");
}
