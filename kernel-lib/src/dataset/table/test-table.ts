import { TEST_COLUMNS } from "../schema/test-columns";
import {
  indicesWhere,
  type ColumnStore,
  type ColumnValue,
  type ExtraColumn,
  type FileRows,
  type RowSource,
} from "./column-store";
import { columnsOfRows } from "./columns-of-rows";
import { joinedColumns, joinedExtras } from "./joined-columns";
import { StoredColumns } from "./stored-columns";
import type { WordColumn } from "./word-column";
import type {
  ExtraValue,
  NumberColumnName,
  TestRow,
  TestRowInput,
  TextColumnName,
} from "../schema/test-row";

/**
 * Tests as columns. Immutable: every selection gives a new table. Arrays handed out are the stored
 * ones, so that bulk work copies nothing: read them, never write to them.
 * @example
 * const steel = table.where((row) => row.bar_material === "steel");
 * const loads = steel.numbers("peak_load_kN"); // Float64Array, NaN = missing
 */
export class TestTable {
  readonly length: number;
  readonly extraColumns: ReadonlyArray<ExtraColumn>;
  readonly #columns: StoredColumns;
  readonly #sources: ReadonlyArray<RowSource | null> | FileRows;

  constructor(
    length: number,
    store: ColumnStore,
    extraColumns: ReadonlyArray<ExtraColumn> = [],
    sources: ReadonlyArray<RowSource | null> | FileRows = [],
  ) {
    this.length = length;
    this.extraColumns = extraColumns;
    this.#columns = new StoredColumns(store);
    this.#sources = sources;
  }

  /** A table from rows written by hand or generated. Missing columns and nulls stay missing. */
  static fromRows(
    rows: ReadonlyArray<TestRowInput>,
    sources: ReadonlyArray<RowSource | null> = [],
  ): TestTable {
    const { columns, extraColumns } = columnsOfRows(rows);
    return new TestTable(rows.length, columns, extraColumns, sources);
  }

  /**
   * Numbers of a column, NaN where missing. Throws RangeError for a column that holds no numbers.
   */
  numbers(column: NumberColumnName | (string & {})): Float64Array {
    return this.#columns.numbers(column);
  }

  /** Texts of a column, null where missing. Throws RangeError for a column that holds no text. */
  texts(column: TextColumnName | (string & {})): ReadonlyArray<string | null> {
    return this.#columns.texts(column);
  }

  /**
   * A column of categories as its different words and a code for each row; null for any other
   * column.
   */
  words(column: TextColumnName | (string & {})): WordColumn | null {
    return this.#columns.words(column);
  }

  /** One number; NaN where missing. */
  number(i: number, column: NumberColumnName | (string & {})): number {
    return this.numbers(column)[this.#checked(i)] ?? NaN;
  }

  /** One text; null where missing. */
  text(i: number, column: TextColumnName | (string & {})): string | null {
    this.#checked(i);
    return this.#columns.text(i, column) ?? this.texts(column)[i] ?? null;
  }

  /** Inside another object that is printed: the size, not the stored columns. */
  [Symbol.for("nodejs.util.inspect.custom")](): string {
    const columns = TEST_COLUMNS.length + this.extraColumns.length;
    return `TestTable (${this.length} tests, ${columns} columns)`;
  }

  /** Whether the table holds that column, in the schema or as an extra one. */
  has(column: string): boolean {
    return this.#columns.has(column);
  }

  /** One row as a record; missing values are null. */
  row(i: number): TestRow {
    this.#checked(i);
    const record: Record<string, ColumnValue | Readonly<Record<string, ExtraValue>>> = {};
    for (const { name } of TEST_COLUMNS) record[name] = this.#columns.value(i, name);
    const extra: Record<string, ExtraValue> = Object.create(null) as Record<string, ExtraValue>;
    for (const { name } of this.extraColumns) extra[name] = this.#columns.value(i, name);
    record["extra"] = extra;
    return record as unknown as TestRow;
  }

  /** One cell of a column of the contract or of one's own; null where it is missing. */
  value(i: number, column: string): ColumnValue {
    return this.#columns.has(column) ? this.#columns.value(this.#checked(i), column) : null;
  }

  /** All rows as records. */
  rows(): TestRow[] {
    return Array.from({ length: this.length }, (_, i) => this.row(i));
  }

  /** File and row a test was read from; null for a test that was not read from a file. */
  source(i: number): RowSource | null {
    return this.#sourceAt(this.#checked(i));
  }

  /** The rows for which the predicate holds, in order. */
  where(predicate: (row: TestRow, index: number) => boolean): TestTable {
    const kept: number[] = [];
    for (let i = 0; i < this.length; i += 1) if (predicate(this.row(i), i)) kept.push(i);
    return this.select(kept);
  }

  /** The rows at these indices, in the order given. */
  select(indices: ReadonlyArray<number>): TestTable {
    for (const i of indices) this.#checked(i);
    return new TestTable(
      indices.length,
      this.#columns.at(indices),
      this.extraColumns,
      indices.map((i) => this.#sourceAt(i)),
    );
  }

  /**
   * The same rows with further columns, which count as columns of one's own: numbers with NaN and
   * texts with null for a blank.
   * @throws RangeError for a name that the table has already
   */
  withColumns({
    numbers,
    texts,
  }: {
    readonly numbers: Readonly<Record<string, Float64Array>>;
    readonly texts: Readonly<Record<string, ReadonlyArray<string | null>>>;
  }): TestTable {
    const added = [
      ...Object.keys(numbers).map((name) => ({ name, kind: "number" as const })),
      ...Object.keys(texts).map((name) => ({ name, kind: "text" as const })),
    ];
    for (const { name } of added)
      if (this.has(name)) throw new RangeError(`a column "${name}" exists: expected a new name`);
    return new TestTable(
      this.length,
      this.#columns.with(numbers, texts),
      [...this.extraColumns, ...added],
      this.#sources,
    );
  }

  /**
   * The same rows with other words in one column. @throws RangeError for a column of numbers, or
   * another number of rows
   */
  withTexts(
    column: TextColumnName | (string & {}),
    texts: ReadonlyArray<string | null>,
  ): TestTable {
    if (texts.length !== this.length)
      throw new RangeError(
        `${String(texts.length)} words for ${String(this.length)} rows: expected one for each row`,
      );
    return new TestTable(
      this.length,
      this.#columns.withTexts(column, texts),
      this.extraColumns,
      this.#sources,
    );
  }

  /** Rows without an exclusion reason. */
  kept(): TestTable {
    const reasons = this.texts("excluded");
    return this.select(indicesWhere(this.length, (i) => (reasons[i] ?? null) === null));
  }

  /** Rows with an exclusion reason. */
  excluded(): TestTable {
    const reasons = this.texts("excluded");
    return this.select(indicesWhere(this.length, (i) => (reasons[i] ?? null) !== null));
  }

  /**
   * This table's rows followed by the other's. Extra columns of either are kept, blank where the
   * other has none.
   */
  concat(other: TestTable): TestTable {
    const extras = joinedExtras(this.extraColumns, other.extraColumns);
    return new TestTable(
      this.length + other.length,
      joinedColumns(extras, (name) => [...this.#cells(name), ...other.#cells(name)]),
      extras,
      [...this.#allSources(), ...other.#allSources()],
    );
  }

  /**
   * Made when asked for: half a million places would weigh more than the numbers of some columns.
   */
  #sourceAt(i: number): RowSource | null {
    if (!("file" in this.#sources)) return this.#sources[i] ?? null;
    const row = this.#sources.rows[i];
    return row === undefined ? null : { file: this.#sources.file, row };
  }

  #checked(i: number): number {
    if (!Number.isInteger(i) || i < 0 || i >= this.length)
      throw new RangeError(
        `no row ${String(i)}: expected a whole number from 0 to ${String(this.length - 1)}`,
      );
    return i;
  }

  #cells(name: string): ColumnValue[] {
    return Array.from({ length: this.length }, (_, i) => this.#columns.value(i, name));
  }

  #allSources(): Array<RowSource | null> {
    return Array.from({ length: this.length }, (_, i) => this.#sourceAt(i));
  }
}
