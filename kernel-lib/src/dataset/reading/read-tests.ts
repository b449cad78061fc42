import { basename } from "node:path";
import type { Diagnostic } from "../diagnostics";
import { readNumber } from "./number-cells";
import { readBytes } from "./file-bytes";
import { DERIVED_LOAD, MEASURE_COLUMNS } from "./derive-load";
import { readTable } from "./read-table";
import { type ReadingOptions } from "./table-reading";
import type { RowSetAside } from "./row-set-aside";
import { suspiciousValues } from "./suspicious-values";
import { TEST_COLUMNS, testColumn } from "../schema/test-columns";
import type { WordColumn } from "../table/word-column";
import type { ExtraColumn } from "../table/column-store";
import { TestTable } from "../table/test-table";

/**
 * A tests file as read: the usable rows, the findings, the rows rejected, and the file's SHA-256.
 */
export interface TestsReading {
  readonly tests: TestTable;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
  readonly rejected: ReadonlyArray<RowSetAside>;
  readonly sha256: string;
}

/**
 * Reads and checks a tests file (comma, semicolon or tab separated; decimal point or comma; SI or
 * other units in the names).
 * @throws DatasetError when the file cannot be opened. Everything else is a finding in
 *   `diagnostics`.
 * @example const { tests, diagnostics } = await readTests("datasets/demo/tests.csv");
 */
export async function readTests(file: string, options: ReadingOptions = {}): Promise<TestsReading> {
  return parseTests(await readBytes(file, file), basename(file), options);
}

/** The same for bytes already at hand; `file` is the name used in findings. */
export function parseTests(
  bytes: Uint8Array,
  file: string,
  options: ReadingOptions = {},
): TestsReading {
  const reading = readTable(bytes, file, [...TEST_COLUMNS, ...MEASURE_COLUMNS], "test_id", options);
  const numbers = new Map<string, Float64Array>();
  const texts = new Map<string, ReadonlyArray<string | null>>();
  const words = new Map<string, WordColumn>();
  const extraColumns: ExtraColumn[] = [];
  // One blank column stands for all that the file does not have: a large table has thirty of them.
  const noNumbers = new Float64Array(reading.length).fill(NaN);
  const noTexts = new Array<string | null>(reading.length).fill(null);
  for (const { name, kind } of TEST_COLUMNS) {
    const column = reading.columns.find(({ matched }) => matched.column?.name === name);
    if (kind === "number" || kind === "integer") numbers.set(name, column?.numbers() ?? noNumbers);
    else {
      const coded = column?.words() ?? null;
      if (coded === null) texts.set(name, column?.texts() ?? noTexts);
      else words.set(name, coded);
    }
  }
  for (const column of reading.columns) {
    const { matched } = column;
    if (matched.column !== null && testColumn(matched.column.name) !== null) continue;
    const name = matched.column?.name ?? matched.typed;
    const cells = column.texts() ?? [];
    const asNumbers = matched.column === null ? numbersIfAll(cells) : column.numbers();
    extraColumns.push({ name, kind: asNumbers === null ? "text" : "number" });
    if (asNumbers === null) texts.set(name, cells);
    else numbers.set(name, asNumbers);
  }
  if (reading.derivedBy.some((rule) => rule !== null))
    markDerived(reading.derivedBy, texts, extraColumns);
  const tests = new TestTable(reading.length, { numbers, texts, words }, extraColumns, {
    file,
    rows: Int32Array.from(reading.rows),
  });
  return {
    tests,
    diagnostics: [...reading.diagnostics, ...suspiciousValues(tests)],
    rejected: reading.rejected,
    sha256: reading.sha256,
  };
}

/** Rows with a derived load say so themselves, as rows of an import do, and name the rule. */
function markDerived(
  rules: ReadonlyArray<string | null>,
  texts: Map<string, ReadonlyArray<string | null>>,
  extraColumns: ExtraColumn[],
): void {
  const before = texts.get("derived_columns") ?? [];
  texts.set(
    "derived_columns",
    rules.map(
      (rule, i) =>
        [before[i] ?? null, rule === null ? null : DERIVED_LOAD]
          .filter((part) => part !== null)
          .join(" ") || null,
    ),
  );
  texts.set("load_rule", rules);
  for (const name of ["derived_columns", "load_rule"])
    if (!extraColumns.some((column) => column.name === name))
      extraColumns.push({ name, kind: "text" });
}

/**
 * An extra column becomes numbers only when every filled cell is one and none would lose its
 * spelling ("007").
 */
function numbersIfAll(cells: ReadonlyArray<string | null>): Float64Array | null {
  const numbers = new Float64Array(cells.length).fill(NaN);
  let filled = 0;
  for (let i = 0; i < cells.length; i += 1) {
    const cell = cells[i] ?? null;
    if (cell === null) continue;
    if (/^[+-]?0\d/.test(cell)) return null;
    const value = readNumber(cell, ".");
    if (value === null) return null;
    numbers[i] = value;
    filled += 1;
  }
  return filled === 0 ? null : numbers;
}
