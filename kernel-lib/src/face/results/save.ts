import { mkdir, rename, writeFile } from "node:fs/promises";
import { dirname, extname, relative, resolve } from "node:path";
import type { Figure } from "../../figures";
import type { Table } from "../../tables";
import { projectRoot } from "../project";
import { tablePage } from "../table-page";
import { UnknownNameError } from "./names";

type Writer<T> = (value: T) => string | Uint8Array | Promise<string | Uint8Array>;

const TABLE_WRITERS: Readonly<Record<string, Writer<Table>>> = {
  ".csv": (table) => table.toCsv(),
  ".md": (table) => table.toMarkdown(),
  ".html": (table) => tablePage(table),
  ".tex": (table) => table.toLatex(),
  ".xlsx": (table) => table.toXlsx(),
  ".docx": (table) => table.toDocx(),
};

const FIGURE_WRITERS: Readonly<Record<string, Writer<Figure>>> = {
  ".svg": async (figure) => (await images()).renderSvg(figure),
  ".png": async (figure) =>
    (await images()).svgToPng(await (await images()).renderSvg(figure), { dpi: 300 }),
  ".pdf": async (figure) => (await images()).renderPdf(figure),
  ".html": async (figure) => (await images()).figureHtml(figure),
  ".json": (figure) => JSON.stringify({ data: figure.data, layout: figure.layout }),
};

/** Drawing takes a second to load: it is loaded when the first figure is saved. */
function images(): Promise<typeof import("../../exports/images")> {
  return import("../../exports/images/index.js");
}

/** Writes a table in the format that the ending of the path names. */
export function saveTable(table: Table, path: string): Promise<string> {
  return saved(TABLE_WRITERS, table, path);
}

/** Writes a figure in the format that the ending of the path names. */
export function saveFigure(figure: Figure, path: string): Promise<string> {
  return saved(FIGURE_WRITERS, figure, path);
}

async function saved<T>(
  writers: Readonly<Record<string, Writer<T>>>,
  value: T,
  path: string,
): Promise<string> {
  const writer = writers[extname(path).toLowerCase()];
  if (!writer)
    throw new UnknownNameError("file format", extname(path) || path, Object.keys(writers));
  const content = await writer(value);
  await mkdir(dirname(path), { recursive: true });
  // A half-written file never stands under its final name.
  const partial = `${path}.${process.pid}.part`;
  await writeFile(partial, content);
  await rename(partial, path);
  printWhere(path);
  return path;
}

/** In a notebook, says where a file went: from the project's folder, so that a rerun says the same. */
function printWhere(path: string): void {
  if (!(Symbol.for("code-comparison.show") in globalThis)) return;
  process.stdout.write(`Saved: ${placeOf(path)}\n`);
  // The kernel does not show the path once more where it is the last value of the cell.
  (globalThis as Record<symbol, unknown>)[Symbol.for("code-comparison.told")] = path;
}

function placeOf(path: string): string {
  try {
    const place = relative(projectRoot(), resolve(path)).replaceAll("\\", "/");
    return place.startsWith("..") ? path : place;
  } catch {
    // Outside a project.
    return path;
  }
}
