import { randomBytes } from "node:crypto";
import { mkdir, open, rename, rm } from "node:fs/promises";
import { dirname } from "node:path";
import { wholeText } from "./cell-text";
import { freshName, removeLeftovers } from "./leftovers";
import type {
  CellOutput,
  MimeBundle,
  MultilineText,
  Notebook,
  NotebookCell,
} from "./notebook-types";

/**
 * The text of a notebook file, byte for byte as Jupyter's own writer lays it out: keys sorted,
 * one space of indent, text cut into lines, a line end at the end. So a notebook saved by
 * either differs in what changed, and in nothing else.
 */
export function notebookText(notebook: Notebook): string {
  const laidOut = { ...notebook, cells: notebook.cells.map(layOutCell) };
  return `${JSON.stringify(sortKeys(laidOut), null, 1)}\n`;
}

/**
 * Writes a notebook so that a crash leaves either the old file or the new one, never half of it.
 */
export async function writeNotebook(file: string, notebook: Notebook): Promise<void> {
  await writeWhole(file, notebookText(notebook));
}

/**
 * Writes a text file atomically: to a new file beside it, flushed to disk, then renamed over it.
 * Removes what a killed write of the same file left behind.
 */
export async function writeWhole(file: string, text: string): Promise<void> {
  await mkdir(dirname(file), { recursive: true });
  const fresh = freshName(file, randomBytes(4).toString("hex"));
  try {
    const handle = await open(fresh, "wx");
    try {
      await handle.writeFile(text);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(fresh, file);
  } catch (error) {
    await rm(fresh, { force: true });
    throw error;
  }
  await removeLeftovers(file);
}

function layOutCell(cell: NotebookCell): NotebookCell {
  const source = inLines(cell.source);
  return cell.cell_type === "code"
    ? { ...cell, source, outputs: cell.outputs.map(layOutOutput) }
    : { ...cell, source };
}

function layOutOutput(output: CellOutput): CellOutput {
  if (output.output_type === "stream") return { ...output, text: inLines(output.text) };
  if (output.output_type === "error") return output;
  return { ...output, data: layOutBundle(output.data) };
}

function layOutBundle(bundle: MimeBundle): MimeBundle {
  const entries = Object.entries(bundle).map(([type, data]): [string, unknown] => {
    const isJson = type === "application/json" || type.endsWith("+json");
    return [type, typeof data === "string" && !isJson ? inLines(data) : data];
  });
  return Object.fromEntries(entries);
}

function inLines(text: MultilineText): string[] {
  return wholeText(text).match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

function sortKeys(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sortKeys);
  if (typeof value !== "object" || value === null) return value;
  const entries = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  // A null prototype, so that a key "__proto__" stays an ordinary key.
  const sorted = Object.create(null) as Record<string, unknown>;
  for (const [key, inner] of entries) sorted[key] = sortKeys(inner);
  return sorted;
}
