import type { Column } from "../schema/column";
import { columnReader, type ColumnReader } from "./column-reader";
import { decodeText } from "./decode-text";
import { visitRecords, type Delimiter } from "./delimited-text";
import { diagnostic, shortened, type Diagnostic } from "../checks/diagnostics";
import { findHeader } from "./find-header";
import { isUnitsRow, matchHeader, type MatchedColumn } from "./match-header";
import { detectDecimal, type DecimalSign } from "./number-cells";

/** A row that could not be used, as typed, with the reasons. */
export interface RowSetAside {
  readonly file: string;
  readonly row: number;
  readonly cells: ReadonlyArray<string>;
  readonly reasons: ReadonlyArray<string>;
}

/** A table read by a schema: the columns by their schema name, the row of each record, and everything that was found. */
export interface TableReading {
  readonly length: number;
  readonly header: ReadonlyArray<string>;
  readonly columns: ReadonlyArray<ColumnReader>;
  readonly rows: ReadonlyArray<number>;
  readonly diagnostics: Diagnostic[];
  readonly setAside: RowSetAside[];
}

/** How a file is read where it does not speak for itself. */
export interface ReadingOptions {
  /** Names of extra columns announced by the data set's descriptor. */
  readonly declared?: ReadonlySet<string>;
  readonly delimiter?: Delimiter;
  readonly decimal?: DecimalSign;
  /** Row of the column names, counted from 1; looked for when left out. */
  readonly headerRow?: number;
  /** Sheet of a spreadsheet; the one with most known names when left out. */
  readonly sheet?: string;
}

/** Longest text that one string can safely hold; a larger file is refused with a message. */
const MAXIMUM_BYTES = 500_000_000;

/**
 * Reads a delimited text by a schema. A row with any error is set aside whole and listed; the others go on.
 * `key` names a column whose values must be unique.
 */
export function readTable(bytes: Uint8Array, file: string, schema: ReadonlyArray<Column>, key: string | null, options: ReadingOptions = {}): TableReading {
  const fail = (rule: string, message: string, expected: string, before: ReadonlyArray<Diagnostic> = []): TableReading => ({
    length: 0, header: [], columns: [], rows: [], setAside: [], diagnostics: [...before, diagnostic("error", rule, message, { file, expected })],
  });
  if (bytes.length > MAXIMUM_BYTES) return fail("too-large", `${file} has ${String(bytes.length)} bytes, expected at most ${String(MAXIMUM_BYTES)}; split it`, "a smaller file");
  const { text, diagnostics: decoding } = decodeText(bytes, file);
  if (decoding.some(({ severity }) => severity === "error")) return { ...fail("", "", ""), diagnostics: [...decoding] };
  const { delimiter, sample, headerAt } = findHeader(text, schema, options);
  const header = sample[headerAt] ?? [];
  if (headerAt === -1) return fail("empty-file", `${file} ${text.trim() === "" ? "is empty" : `has no row ${String(options.headerRow ?? 1)}`}, expected a header and rows`, "a header and rows", decoding);

  const below = sample[headerAt + 1];
  const units = below !== undefined && isUnitsRow(below) ? below : null;
  const matching = matchHeader(header, units, schema, file, headerAt + 1, options.declared);
  const diagnostics = [...decoding, ...matching.diagnostics];
  const above = sample.slice(0, headerAt).filter((cells) => cells.some((cell) => cell.trim() !== "")).length;
  if (above > 0 && options.headerRow === undefined) diagnostics.push(diagnostic("information", "rows-above-header", `${file}: the column names were read from row ${String(headerAt + 1)}; ${String(above)} ${above === 1 ? "row" : "rows"} above it ${above === 1 ? "was" : "were"} left out (say dialect.headerRows in datapackage.json if another row is meant)`, { file, row: headerAt + 1, expected: "a header with the names of the data contract" }));
  const body = sample.slice(headerAt + (units === null ? 1 : 2));
  const finding = detectDecimal(numberCells(matching.columns, body));
  const decimal = options.decimal ?? finding.decimal;
  if (decimal === "," && finding.doubtful) {
    diagnostics.push(diagnostic("warning", "doubtful-comma", `${file} uses a comma before three digits in every number; it was read as a decimal comma, check that it is no thousands separator`, { file, expected: "numbers without thousands separators" }));
  }
  const capacity = likelyLines(text);
  const columns = matching.columns.map((matched) => columnReader(matched, decimal, capacity));
  const absent = schema.filter(({ name, required }) => required && !matching.columns.some(({ column }) => column?.name === name));
  for (const { name, meaning } of absent) {
    diagnostics.push(diagnostic("error", "missing-column", `${file} has no column ${name} (${meaning}), expected one; no row can be used without it`, { file, row: headerAt + 1, column: name, expected: name }));
  }
  const intake = new RowIntake(file, header, columns, key, absent.map(({ name }) => `no column ${name}`), diagnostics);
  const firstRow = headerAt + (units === null ? 1 : 2);
  const broken = visitRecords(text, delimiter, (cells, row, fault) => {
    if (row > firstRow) intake.take(cells, row, fault);
  });
  if (broken !== null) {
    diagnostics.push(diagnostic("error", "broken-quotes", `${file} from row ${String(broken.row)} on: ${broken.reason}, expected paired quotation marks; nothing after it could be read`, { file, row: broken.row, expected: "paired quotation marks" }));
  }
  if (intake.rows.length === 0 && intake.setAside.length === 0 && broken === null) {
    diagnostics.push(diagnostic("error", "no-rows", `${file} has a header but no rows, expected at least one row`, { file, expected: "at least one row" }));
  }
  reportMissingWords(columns, file, diagnostics);
  return { length: intake.rows.length, header, columns, rows: intake.rows, diagnostics, setAside: intake.setAside };
}

/** Takes records one by one, deciding for each whether it is used or set aside. */
class RowIntake {
  readonly rows: number[] = [];
  readonly setAside: RowSetAside[] = [];
  readonly #seen = new Map<string, number>();
  /** Looked up once: this is asked for every row. */
  readonly #keyColumn: MatchedColumn | null;

  constructor(
    readonly file: string,
    readonly header: ReadonlyArray<string>,
    readonly columns: ReadonlyArray<ColumnReader>,
    key: string | null,
    readonly standing: ReadonlyArray<string>,
    readonly diagnostics: Diagnostic[],
  ) {
    this.#keyColumn = (key === null ? undefined : columns.find(({ matched }) => matched.column?.name === key))?.matched ?? null;
  }

  take(cells: ReadonlyArray<string>, row: number, fault: string | null): void {
    const reasons = fault === null ? this.#lengthFault(cells, row) : this.#quoteFault(cells, row, fault);
    if (reasons === null) return;
    if (reasons.length === 0) {
      for (const column of this.columns) {
        const cell = cells[column.matched.index] ?? "";
        const trimmed = cell === "" ? cell : cell.trim();
        const problem = column.read(trimmed);
        if (problem === null) continue;
        const name = column.matched.typed;
        const value = trimmed === "" ? "" : ` "${shortened(trimmed)}"`;
        const message = `${this.file} row ${String(row)}: ${shortened(name)}${value} ${problem.fault}, expected ${problem.expected}`;
        this.diagnostics.push(diagnostic(problem.severity, problem.rule, message, { file: this.file, row, column: name, value: cell, expected: problem.expected }));
        if (problem.severity === "error") reasons.push(`${name}${value} ${problem.fault}`);
      }
      this.#checkKey(cells, row, reasons);
    }
    if (reasons.length > 0 || this.standing.length > 0) {
      this.setAside.push({ file: this.file, row, cells: [...cells], reasons: [...this.standing, ...reasons] });
      return;
    }
    for (const column of this.columns) column.commit();
    this.rows.push(row);
  }

  /** Null for a blank line; else the reasons for which the row's number of cells is wrong. */
  #lengthFault(cells: ReadonlyArray<string>, row: number): string[] | null {
    const wanted = this.header.length;
    if (cells.length === wanted) return cells.every((cell) => cell === "" || cell.trim() === "") ? null : [];
    if (cells.every((cell) => cell.trim() === "")) return null;
    if (cells.length > wanted && cells.slice(wanted).every((cell) => cell.trim() === "")) return [];
    const message = `${this.file} row ${String(row)} has ${String(cells.length)} cells, expected ${String(wanted)} as in the header`;
    this.diagnostics.push(diagnostic("error", "ragged-row", message, { file: this.file, row, value: String(cells.length), expected: `${String(wanted)} cells` }));
    return [`${String(cells.length)} cells where the header has ${String(wanted)}`];
  }

  #quoteFault(cells: ReadonlyArray<string>, row: number, fault: string): string[] {
    const expected = "quotation marks doubled inside quoted cells";
    this.diagnostics.push(diagnostic("error", "stray-quote", `${this.file} row ${String(row)}: ${fault}, expected ${expected}`, { file: this.file, row, value: cells.join(" | "), expected }));
    return [fault];
  }

  #checkKey(cells: ReadonlyArray<string>, row: number, reasons: string[]): void {
    const column = this.#keyColumn;
    if (column === null) return;
    const value = (cells[column.index] ?? "").trim();
    if (value === "") return;
    const first = this.#seen.get(value);
    if (first === undefined) {
      this.#seen.set(value, row);
      return;
    }
    const message = `${this.file} row ${String(row)}: ${column.typed} "${shortened(value)}" is already in row ${String(first)}, expected a name used once`;
    this.diagnostics.push(diagnostic("error", "duplicate-id", message, { file: this.file, row, column: column.typed, value, expected: "a name used once" }));
    reasons.push(`${column.typed} "${value}" is already in row ${String(first)}`);
  }
}

function* numberCells(columns: ReadonlyArray<MatchedColumn>, records: ReadonlyArray<ReadonlyArray<string>>): Generator<string> {
  const numeric = columns.filter(({ column }) => column?.kind === "number");
  for (const cells of records) for (const { index } of numeric) yield (cells[index] ?? "").trim();
}

/** About as many lines as a text has, from its beginning; columns grow where there are more. */
function likelyLines(text: string): number {
  const beginning = text.slice(0, 100_000);
  let lines = 1;
  for (let i = beginning.indexOf("\n"); i !== -1; i = beginning.indexOf("\n", i + 1)) lines += 1;
  return text.length <= beginning.length ? lines : Math.ceil((1.05 * lines * text.length) / beginning.length);
}

function reportMissingWords(columns: ReadonlyArray<ColumnReader>, file: string, diagnostics: Diagnostic[]): void {
  for (const column of columns) {
    const count = column.missingWords();
    if (count === 0) continue;
    diagnostics.push(diagnostic("information", "missing-word", `${file}: ${String(count)} ${count === 1 ? "cell" : "cells"} of ${shortened(column.matched.typed)} hold a word for "no value" and count as missing`, { file, column: column.matched.typed, expected: "a blank cell" }));
  }
}
