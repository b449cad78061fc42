import { mkdir, rename, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { Figure } from "../figures";
import { Table } from "../tables";
import { isFigure } from "./show";
import { projectRoot } from "./open-study";

/**
 * Writes figures (SVG, PNG at 300 dpi, PDF, interactive HTML) and tables (CSV, Markdown, HTML, LaTeX) into
 * `exports/figures` and `exports/tables`, named by their ids. The manifest of the study lists them.
 * @example await keep(figure, table)
 */
export async function keep(...results: readonly (Figure | Table)[]): Promise<void> {
  const root = exportsFolder();
  for (const result of results) {
    if (result instanceof Table) await keepTable(result, join(root, "tables"));
    else if (isFigure(result)) await keepFigure(result, join(root, "figures"));
    else throw new Error("keep() takes figures and tables; got something else.");
  }
}

/** The folder that results are written to: `exports/` of the project, or what CODE_COMPARISON_EXPORTS names. */
export function exportsFolder(): string {
  return process.env["CODE_COMPARISON_EXPORTS"] ?? join(projectRoot(), "exports");
}

async function keepTable(table: Table, folder: string): Promise<void> {
  await write(join(folder, `${table.id}.csv`), table.toCsv());
  await write(join(folder, `${table.id}.md`), table.toMarkdown());
  await write(join(folder, `${table.id}.html`), page(table.title, table.toHtml()));
  await write(join(folder, `${table.id}.tex`), table.toLatex());
}

async function keepFigure(figure: Figure, folder: string): Promise<void> {
  const { figureHtml, renderSvg, svgToPng, renderPdf } = await import("../exports/images/index.js");
  const svg = await renderSvg(figure);
  await write(join(folder, `${figure.id}.svg`), svg);
  await write(join(folder, `${figure.id}.png`), await svgToPng(svg, { dpi: 300 }));
  await write(join(folder, `${figure.id}.pdf`), await renderPdf(figure));
  await write(join(folder, `${figure.id}.html`), await figureHtml(figure));
}

function page(title: string, body: string): string {
  const safe = title.replaceAll("&", "&amp;").replaceAll("<", "&lt;");
  return `<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>${safe}</title>\n<style>body{font-family:"DejaVu Sans",sans-serif;margin:2rem;max-width:80rem}table{border-collapse:collapse}th,td{padding:.25rem .6rem;border-bottom:1px solid #bbb;text-align:left}caption{text-align:left;font-weight:bold;padding-bottom:.5rem}</style></head>\n<body>${body}</body></html>\n`;
}

/** A half-written file never stands under its final name. */
async function write(file: string, content: string | Uint8Array): Promise<void> {
  await mkdir(dirname(file), { recursive: true });
  const partial = `${file}.${process.pid}.part`;
  await writeFile(partial, content);
  await rename(partial, file);
}
