import { decodeText } from "../reading/decode-text";
import { detectDelimiter, visitRecords } from "../reading/delimited-text";
import { DatasetError, diagnostic, shortened, type Diagnostic } from "../diagnostics";
import { likelyName } from "../reading/likely-name";
import { readSheet } from "../spreadsheet";
import type { Recipe } from "./recipe";

/** A row of the source: its file, its row number and its cells by column name. */
export interface SourceRow {
  readonly file: string;
  readonly row: number;
  readonly cells: ReadonlyMap<string, string>;
}

/** The source table with blank cells filled down as the recipe says. */
export interface SourceTable {
  readonly rows: ReadonlyArray<SourceRow>;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
}

/** Cells of a source, row by row, before anything is made of them. */
export interface SourceCells {
  readonly records: ReadonlyArray<{ readonly row: number; readonly cells: ReadonlyArray<string> }>;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
}

/** The records of a source file: delimited text, or a sheet of a spreadsheet. */
export function sourceCells(bytes: Uint8Array, file: string, recipe: Recipe): SourceCells {
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) return spreadsheetCells(bytes, file, recipe);
  const { text, diagnostics } = decodeText(bytes, file);
  const faults = diagnostics.filter(({ severity }) => severity === "error");
  if (faults.length === 0 && text.trim() === "")
    faults.push(
      diagnostic(
        "error",
        "empty-file",
        `${file} is empty, expected the table for recipe ${recipe.name}`,
        { file, expected: "a table" },
      ),
    );
  if (faults.length > 0)
    throw new DatasetError(faults.map(({ message }) => message).join("\n"), faults);
  const found = [...diagnostics];
  const records: Array<{ row: number; cells: ReadonlyArray<string> }> = [];
  const broken = visitRecords(
    text,
    recipe.table.delimiter ?? detectDelimiter(text),
    (cells, row, fault) => {
      if (fault !== null)
        found.push(
          diagnostic("error", "stray-quote", `${file} row ${String(row)}: ${fault}`, {
            file,
            row,
            expected: "paired quotation marks",
          }),
        );
      else records.push({ row, cells: [...cells] });
    },
  );
  if (broken !== null)
    found.push(
      diagnostic(
        "error",
        "broken-quotes",
        `${file} row ${String(broken.row)}: ${broken.reason}; nothing after it was read`,
        { file, row: broken.row, expected: "paired quotation marks" },
      ),
    );
  return { records, diagnostics: found };
}

function spreadsheetCells(bytes: Uint8Array, file: string, recipe: Recipe): SourceCells {
  const { sheet, diagnostics } = readSheet(bytes, file, recipe.table.sheet ?? null);
  if (sheet === null)
    throw new DatasetError(diagnostics.map(({ message }) => message).join("\n"), diagnostics);
  const width = (sheet.rows[(recipe.table.header_row ?? 1) - 1] ?? []).length;
  // A sheet stores no blank cells at a row's end: they are put back up to the header's width.
  const records = sheet.rows.map((cells, i) => ({
    row: i + 1,
    cells: cells.length < width ? Array.from({ length: width }, (_, k) => cells[k] ?? "") : cells,
  }));
  return { records, diagnostics };
}

/**
 * Names the cells by the header and fills down. Source columns that the recipe asks for must be
 * there.
 * @throws DatasetError naming every absent column and the likely one.
 */
export function sourceTable(
  { records, diagnostics }: SourceCells,
  file: string,
  recipe: Recipe,
): SourceTable {
  const headerRow = recipe.table.header_row ?? 1;
  const header = (records.find(({ row }) => row === headerRow)?.cells ?? []).map((cell) =>
    cell.trim(),
  );
  const wanted = new Set([
    ...(recipe.study.citation_from === undefined ? [] : [recipe.study.citation_from]),
    ...(recipe.table.fill_down ?? []),
    ...Object.values(recipe.columns).flatMap(({ from }) => (from === undefined ? [] : [from])),
  ]);
  const absent = [...wanted].filter((name) => !header.includes(name.trim()));
  if (absent.length > 0) {
    const faults = absent.map((name) => {
      const likely = likelyName(name, header);
      return diagnostic(
        "error",
        "missing-source-column",
        `${file} row ${String(headerRow)} has no column "${shortened(name)}", expected it there${likely === null ? "" : ` (did the source rename it to "${shortened(likely)}"?)`}`,
        { file, row: headerRow, column: name, expected: name },
      );
    });
    const elsewhere = rowWithMost(records, absent);
    const moved =
      elsewhere === null
        ? ""
        : `\nrow ${String(elsewhere.row)} has ${String(elsewhere.n)} of them: is that the header? then the recipe's table wants "header_row": ${String(elsewhere.row)}`;
    throw new DatasetError(`${faults.map(({ message }) => message).join("\n")}${moved}`, [
      ...diagnostics,
      ...faults,
    ]);
  }
  const twice = [...wanted]
    .map((name) => name.trim())
    .filter((name) => header.indexOf(name) !== header.lastIndexOf(name));
  const repeats = twice.map((name) =>
    diagnostic(
      "warning",
      "repeated-source-column",
      `${file} row ${String(headerRow)} has the column "${shortened(name)}" more than once (columns ${header.flatMap((cell, k) => (cell === name ? [String(k + 1)] : [])).join(", ")}), expected it once; the first is read`,
      { file, row: headerRow, column: name, expected: "each column once" },
    ),
  );
  const filling = new Set((recipe.table.fill_down ?? []).map((name) => name.trim()));
  const above = new Map<string, string>();
  const found = [...diagnostics, ...repeats];
  const rows: SourceRow[] = [];
  for (const { row, cells } of records) {
    if (
      row <= headerRow + (recipe.table.skip_after_header ?? 0) ||
      cells.every((cell) => cell.trim() === "")
    )
      continue;
    if (cells.length !== header.length) {
      found.push(
        diagnostic(
          "error",
          "ragged-row",
          `${file} row ${String(row)} has ${String(cells.length)} cells, expected ${String(header.length)}; it is left out`,
          { file, row, value: String(cells.length), expected: `${String(header.length)} cells` },
        ),
      );
      continue;
    }
    const named = new Map<string, string>();
    header.forEach((name, index) => {
      let cell = (cells[index] ?? "").trim();
      if (filling.has(name)) {
        if (cell === "") cell = above.get(name) ?? "";
        else above.set(name, cell);
      }
      if (!named.has(name)) named.set(name, cell);
    });
    rows.push({ file, row, cells: named });
  }
  return { rows, diagnostics: found };
}

/**
 * The row near the top in which most of the columns looked for stand; null where no row has two of
 * them.
 */
function rowWithMost(
  records: SourceCells["records"],
  wanted: ReadonlyArray<string>,
): { readonly row: number; readonly n: number } | null {
  const counted = records.slice(0, 30).map(({ row, cells }) => ({
    row,
    n: wanted.filter((name) => cells.some((cell) => cell.trim() === name.trim())).length,
  }));
  const best = counted.reduce((most, one) => (one.n > most.n ? one : most), { row: 0, n: 1 });
  return best.n < 2 ? null : best;
}
