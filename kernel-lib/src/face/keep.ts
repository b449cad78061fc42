import { mkdir, rename, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { Figure } from "../figures";
import { Table } from "../tables";
import { isFigure } from "./show";
import { projectRoot } from "./project";
import { tablePage } from "./table-page";

/**
 * Writes figures (SVG, PNG at 300 dpi, PDF, interactive HTML) and tables (CSV, XLSX, Markdown,
 * HTML, LaTeX) into `exports/figures` and `exports/tables`, named by their ids. The manifest of the
 * study lists them. A review compares what cells show and throws its scratch copy away, so it has
 * the forms for print left out (CODE_COMPARISON_KEEP=plain).
 * @example await keep(figure, table)
 */
export async function keep(...results: readonly (Figure | Table)[]): Promise<void> {
  const root = exportsFolder();
  for (const result of results) {
    if (result instanceof Table) await keepTable(result, join(root, "tables"));
    else if (isFigure(result)) await keepFigure(result, join(root, "figures"));
    else throw new Error("keep() accepts only figures and tables.");
  }
}

/**
 * Whether pictures and pages for print are left out; SVG and CSV, from which they are made, are
 * always kept.
 */
function plainOnly(): boolean {
  return process.env["CODE_COMPARISON_KEEP"] === "plain";
}

/**
 * The folder that results are written to: `exports/` of the project, or what
 * CODE_COMPARISON_EXPORTS names.
 */
export function exportsFolder(): string {
  return process.env["CODE_COMPARISON_EXPORTS"] ?? join(projectRoot(), "exports");
}

async function keepTable(table: Table, folder: string): Promise<void> {
  await write(join(folder, `${table.id}.csv`), table.toCsv());
  if (plainOnly()) return;
  await write(join(folder, `${table.id}.md`), table.toMarkdown());
  await write(join(folder, `${table.id}.html`), tablePage(table));
  await write(join(folder, `${table.id}.tex`), table.toLatex());
  await write(join(folder, `${table.id}.xlsx`), table.toXlsx());
}

async function keepFigure(figure: Figure, folder: string): Promise<void> {
  const { figureHtml, renderSvg, svgToPng, renderPdf } = await import("../exports/images/index.js");
  const svg = await renderSvg(figure);
  await write(join(folder, `${figure.id}.svg`), svg);
  if (plainOnly()) return;
  await write(join(folder, `${figure.id}.png`), await svgToPng(svg, { dpi: 300 }));
  await write(join(folder, `${figure.id}.pdf`), await renderPdf(figure));
  await write(join(folder, `${figure.id}.html`), await figureHtml(figure));
}

/** A half-written file never stands under its final name. */
async function write(file: string, content: string | Uint8Array): Promise<void> {
  await mkdir(dirname(file), { recursive: true });
  const partial = `${file}.${process.pid}.part`;
  await writeFile(partial, content);
  await rename(partial, file);
}
