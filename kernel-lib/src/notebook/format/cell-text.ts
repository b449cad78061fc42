import type { CodeCell, MultilineText, Notebook, NotebookCell } from "./notebook-types";

/** Text of nbformat in one piece. */
export function wholeText(text: MultilineText): string {
  return typeof text === "string" ? text : text.join("");
}

/** The cell's source in one piece. */
export function sourceOf(cell: NotebookCell): string {
  return wholeText(cell.source);
}

/** The cell's tags. */
export function tagsOf(cell: NotebookCell): string[] {
  const tags = cell.metadata["tags"];
  return Array.isArray(tags) ? tags.filter((tag): tag is string => typeof tag === "string") : [];
}

/** A code cell with its place: `number` counts code cells from 1, as a fresh run numbers them. */
export interface NumberedCell {
  readonly cell: CodeCell;
  readonly number: number;
  readonly title: string;
}

/** The notebook's code cells from top to bottom, numbered and titled. */
export function codeCells(notebook: Notebook): NumberedCell[] {
  const numbered: NumberedCell[] = [];
  let heading = "";
  for (const cell of notebook.cells) {
    if (cell.cell_type === "markdown") heading = lastHeading(sourceOf(cell)) ?? heading;
    if (cell.cell_type !== "code") continue;
    numbered.push({ cell, number: numbered.length + 1, title: titleOf(sourceOf(cell), heading) });
  }
  return numbered;
}

const TITLE_LENGTH = 60;

/** A cell's title: the comment it opens with, else the heading above it, else its first line. */
function titleOf(source: string, heading: string): string {
  const first =
    source
      .split("\n")
      .find((line) => line.trim() !== "")
      ?.trim() ?? "";
  const comment = /^\/\/+\s*(.+)$/.exec(first)?.[1];
  const title = comment ?? (heading || first || "(empty)");
  return title.length > TITLE_LENGTH ? `${title.slice(0, TITLE_LENGTH - 1)}…` : title;
}

function lastHeading(markdown: string): string | undefined {
  const headings = [...markdown.matchAll(/^#{1,6}\s+(.+?)\s*#*$/gm)];
  return headings[headings.length - 1]?.[1];
}
