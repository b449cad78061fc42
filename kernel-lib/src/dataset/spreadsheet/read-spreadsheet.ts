import { diagnostic, type Diagnostic } from "../checks/diagnostics";
import type { ReadingOptions } from "../reading/read-table";
import { parseTests, type TestsReading } from "../reading/read-tests";
import { csvText } from "../writing/write-dataset";
import { sheetRows, type SheetRows } from "./sheet-rows";
import { ZipFault } from "./zip-entries";

/** Which sheet of a spreadsheet is read, and where its header stands. */
export interface SpreadsheetOptions extends ReadingOptions {
  /** Name of the sheet; default the first. */
  readonly sheet?: string;
  /** Row of the column names, counted from 1; default the first row that is not blank. */
  readonly headerRow?: number;
}

/** A sheet's rows, or the finding that says why there are none. */
export function readSheet(bytes: Uint8Array, file: string, sheet: string | null): { readonly sheet: SheetRows | null; readonly diagnostics: ReadonlyArray<Diagnostic> } {
  try {
    const read = sheetRows(bytes, sheet);
    const diagnostics = read.errors.map(({ row, column, value }) => diagnostic("warning", "spreadsheet-error", `${file} row ${String(row)}, column ${String(column)} holds the spreadsheet error ${value}, expected a value`, { file, row, value, expected: "a value" }));
    if (sheet === null && read.sheets.length > 1) diagnostics.push(diagnostic("information", "first-sheet", `${file} has the sheets ${read.sheets.join(", ")}; "${read.sheet}" was read`, { file, expected: "one sheet, or its name" }));
    return { sheet: read, diagnostics };
  } catch (error) {
    if (!(error instanceof ZipFault)) throw error;
    return { sheet: null, diagnostics: [diagnostic("error", "bad-spreadsheet", `${file}: ${error.message}, expected a spreadsheet (.xlsx) that can be read`, { file, expected: "a spreadsheet" })] };
  }
}

/** Reads tests from a sheet of a spreadsheet. The stored values meet the same checks as a CSV file; rows are counted as in the sheet. */
export function parseTestsSpreadsheet(bytes: Uint8Array, file: string, options: SpreadsheetOptions = {}): TestsReading {
  const { sheet, diagnostics } = readSheet(bytes, file, options.sheet ?? null);
  if (sheet === null) return { ...parseTests(new Uint8Array(), file), diagnostics };
  const headerRow = options.headerRow ?? sheet.rows.findIndex((cells) => cells.some((cell) => cell.trim() !== "")) + 1;
  const header = sheet.rows[headerRow - 1] ?? [];
  const width = Math.max(header.length, ...sheet.rows.slice(headerRow).map((cells) => cells.length));
  // Rows above the header become blank lines, so that a finding's row is the row in the sheet.
  const padded = sheet.rows.map((cells, i) => (i < headerRow - 1 ? [] : Array.from({ length: width }, (_, k) => cells[k] ?? "")));
  const [first = [], ...rest] = padded;
  const reading = parseTests(new TextEncoder().encode(csvText(first, rest)), file, { ...options, delimiter: ",", decimal: "." });
  return { ...reading, diagnostics: [...diagnostics, ...reading.diagnostics] };
}
