import { diagnostic, shortened, type Diagnostic } from "../diagnostics";
import { fileKind } from "../reading/file-kind";
import { headerAmong } from "../reading/find-header";
import type { ReadingOptions } from "../reading/table-reading";
import { sha256 } from "../reading/file-bytes";
import { parseTests, type TestsReading } from "../reading/read-tests";
import { TEST_COLUMNS } from "../schema/test-columns";
import { csvText } from "../table/csv-text";
import { columnLetters, sheetRows, type SheetRows } from "./sheet-rows";
import { ZipFault } from "./zip-entries";

/** A sheet's rows, or the finding that says why there are none. */
export function readSheet(
  bytes: Uint8Array,
  file: string,
  sheet: string | null,
): { readonly sheet: SheetRows | null; readonly diagnostics: ReadonlyArray<Diagnostic> } {
  try {
    const read = sheetRows(bytes, sheet);
    const diagnostics: ReadonlyArray<Diagnostic> = read.errors.map(({ row, column, value }) =>
      diagnostic(
        "warning",
        "spreadsheet-error",
        `${file} row ${String(row)}, column ${columnLetters(column)} holds the spreadsheet error ${value}, expected a value`,
        { file, row, value, expected: "a value" },
      ),
    );
    return { sheet: read, diagnostics: [...diagnostics, ...oddities(read, file)] };
  } catch (error) {
    if (!(error instanceof ZipFault)) throw error;
    return {
      sheet: null,
      diagnostics: [
        diagnostic(
          "error",
          "bad-spreadsheet",
          `${file}: ${whatInstead(bytes) ?? error.message}, expected a spreadsheet (.xlsx) that can be read`,
          { file, expected: "a spreadsheet" },
        ),
      ],
    };
  }
}

/**
 * What a file is that only has the name of a spreadsheet; null for one that is none of the known
 * kinds.
 */
function whatInstead(bytes: Uint8Array): string | null {
  const first = bytes.subarray(0, 64);
  const kind = fileKind(first);
  if (kind !== null) return first[0] === 0x50 ? null : `the file is ${kind.what}: ${kind.advice}`;
  return first.length > 0 && !first.includes(0)
    ? "the file is a text: name it .csv, or .tsv with tabs"
    : null;
}

/**
 * What a spreadsheet holds beyond plain values: nothing is guessed from it, and all of it is said.
 */
function oddities(
  { unsavedFormulas, hiddenRows, merged, hiddenSheets, sheet }: SheetRows,
  file: string,
): Diagnostic[] {
  const list = (things: ReadonlyArray<string | number>): string =>
    `${things
      .slice(0, 5)
      .map((one) => shortened(String(one)))
      .join(", ")}${things.length > 5 ? `, and ${String(things.length - 5)} more` : ""}`;
  const found: Diagnostic[] = [];
  if (unsavedFormulas.length > 0)
    found.push(
      diagnostic(
        "warning",
        "formula-without-value",
        `${file}: formulas were saved without their values in ${list(unsavedFormulas.map(({ row, column }) => `${columnLetters(column)}${String(row)}`))}, expected values; these cells count as blank (open and save the file in a spreadsheet program, or paste values)`,
        { file, row: unsavedFormulas[0]?.row ?? null, expected: "saved values" },
      ),
    );
  if (hiddenRows.length > 0)
    found.push(
      diagnostic(
        "information",
        "hidden-rows",
        `${file}: rows that the spreadsheet hides are read like any other: ${list(hiddenRows)}`,
        { file, row: hiddenRows[0] ?? null, expected: "rows that are seen" },
      ),
    );
  if (hiddenSheets.includes(sheet))
    found.push(
      diagnostic(
        "warning",
        "hidden-sheet",
        `${file}: the sheet "${shortened(sheet)}", which was read, is hidden; expected one that is seen`,
        { file, expected: "a sheet that is seen" },
      ),
    );
  const down = merged.filter((place) => /^[A-Z]+(\d+):[A-Z]+(?!\1$)\d+$/.test(place));
  if (down.length > 0)
    found.push(
      diagnostic(
        "warning",
        "merged-down",
        `${file}: cells are merged over several rows (${list(down)}): only the first row of each holds the value, the others count as blank. Where one value is meant for all of them, unmerge the cells and fill it down`,
        { file, expected: "a value in every row" },
      ),
    );
  else if (merged.length > 0)
    found.push(
      diagnostic(
        "information",
        "merged-cells",
        `${file}: of merged cells (${list(merged)}) only the first holds the value, the others are blank`,
        { file, expected: "a value in every cell" },
      ),
    );
  return found;
}

/**
 * Reads tests from a sheet of a spreadsheet: the one named, else the one in which most names of the
 * data contract stand near the top. The stored values meet the same checks as a CSV file; rows are
 * counted as in the sheet.
 */
export function parseTestsSpreadsheet(
  bytes: Uint8Array,
  file: string,
  options: ReadingOptions = {},
): TestsReading {
  const { sheet, diagnostics } = readSheet(bytes, file, options.sheet ?? likelySheet(bytes));
  if (sheet === null) return { ...parseTests(new Uint8Array(), file), diagnostics };
  const others =
    sheet.sheets.length > 1 && options.sheet === undefined
      ? [
          diagnostic(
            "information",
            "chosen-sheet",
            `${file} has the sheets ${sheet.sheets.map((one) => `${shortened(one)}${sheet.hiddenSheets.includes(one) ? " (hidden)" : ""}`).join(", ")}; "${shortened(sheet.sheet)}" was read (say dialect.sheetName in datapackage.json if another is meant)`,
            { file, expected: "one sheet, or its name" },
          ),
        ]
      : [];
  const width = sheet.rows.reduce((most, cells) => Math.max(most, cells.length), 0);
  // Every row as wide as the widest, and none left out, so that a finding's row is the row in the
  // sheet.
  const [first = [], ...rest] = sheet.rows.map((cells) =>
    Array.from({ length: width }, (_, k) => cells[k] ?? ""),
  );
  const reading = parseTests(new TextEncoder().encode(csvText(first, rest)), file, {
    ...options,
    delimiter: ",",
    decimal: ".",
  });
  return {
    ...reading,
    diagnostics: [...diagnostics, ...others, ...reading.diagnostics],
    sha256: sha256(bytes),
  };
}

/**
 * The sheet with most names of the data contract in one of its first rows; null for the first
 * sheet.
 */
function likelySheet(bytes: Uint8Array): string | null {
  try {
    const { sheets, hiddenSheets } = sheetRows(bytes);
    if (sheets.length < 2) return null;
    // A hidden sheet is looked at only where every sheet is: what nobody sees is rarely what is
    // meant.
    const seen = sheets.filter((name) => !hiddenSheets.includes(name));
    const names = seen.length > 0 ? seen : sheets;
    const known = names
      .slice(0, 20)
      .map((name) => headerAmong(sheetRows(bytes, name).rows, TEST_COLUMNS).known);
    const most = known.indexOf(Math.max(...known));
    return (known[most] ?? 0) >= 2 ? (names[most] ?? null) : null;
  } catch (error) {
    // A file that cannot be read is reported by the reading that follows.
    if (error instanceof ZipFault) return null;
    throw error;
  }
}
