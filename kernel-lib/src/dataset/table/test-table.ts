import { TEST_COLUMNS, testColumn } from "../schema/test-columns";
import {
  indicesWhere,
  numbersAt,
  store,
  type ColumnStore,
  type ColumnValue,
  type FileRows,
} from "./column-store";
import { textsOf, wordColumn, type WordColumn } from "./word-column";
import type {
  ExtraValue,
  NumberColumnName,
  TestRow,
  TestRowInput,
  TextColumnName,
} from "../schema/test-row";

/** Where a row was read: file, and row as a spreadsheet counts it. */
export interface RowSource {
  readonly file: string;
  readonly row: number;
}

/** A column outside the schema, kept as it came. */
export interface ExtraColumn {
  readonly name: string;
  readonly kind: "text" | "number";
}

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
  readonly #numbers: ReadonlyMap<string, Float64Array>;
  /** Columns of categories, kept as codes; their texts are written out when first asked for. */
  readonly #words: ReadonlyMap<string, WordColumn>;
  readonly #texts: Map<string, ReadonlyArray<string | null>>;
  readonly #sources: ReadonlyArray<RowSource | null> | FileRows;

  constructor(
    length: number,
    store: ColumnStore,
    extraColumns: ReadonlyArray<ExtraColumn> = [],
    sources: ReadonlyArray<RowSource | null> | FileRows = [],
  ) {
    this.length = length;
    this.extraColumns = extraColumns;
    this.#numbers = store.numbers;
    this.#sources = sources;
    const words = new Map<string, WordColumn>(store.words ?? []);
    // Columns that share one array of texts (blank ones) share their codes too.
    const coded = new Map<ReadonlyArray<string | null>, WordColumn | null>();
    this.#texts = new Map();
    for (const [name, texts] of store.texts) {
      const category = testColumn(name)?.kind === "category";
      if (category && !coded.has(texts)) coded.set(texts, wordColumn(texts));
      const found = category ? (coded.get(texts) ?? null) : null;
      if (found === null) this.#texts.set(name, texts);
      else words.set(name, found);
    }
    this.#words = words;
  }

  /** A table from rows written by hand or generated. Missing columns and nulls stay missing. */
  static fromRows(
    rows: ReadonlyArray<TestRowInput>,
    sources: ReadonlyArray<RowSource | null> = [],
  ): TestTable {
    const numbers = new Map<string, Float64Array>();
    const texts = new Map<string, ReadonlyArray<string | null>>();
    for (const { name, kind } of TEST_COLUMNS) {
      const cells = rows.map(
        (row): ColumnValue =>
          (row as unknown as Record<string, ColumnValue | undefined>)[name] ?? null,
      );
      store(name, kind === "number" || kind === "integer", cells, numbers, texts);
    }
    const names = new Set<string>();
    for (const row of rows) for (const name of Object.keys(row.extra ?? {})) names.add(name);
    const extraColumns: ExtraColumn[] = [];
    for (const name of names) {
      const cells = rows.map((row): ColumnValue => row.extra?.[name] ?? null);
      const numeric =
        cells.every((cell) => cell === null || typeof cell === "number") &&
        cells.some((cell) => cell !== null);
      extraColumns.push({ name, kind: numeric ? "number" : "text" });
      store(
        name,
        numeric,
        numeric ? cells : cells.map((cell) => (cell === null ? null : String(cell))),
        numbers,
        texts,
      );
    }
    return new TestTable(rows.length, { numbers, texts }, extraColumns, sources);
  }

  /**
   * Numbers of a column, NaN where missing. Throws RangeError for a column that holds no numbers.
   */
  numbers(column: NumberColumnName | (string & {})): Float64Array {
    const found = this.#numbers.get(column);
    if (found === undefined)
      throw new RangeError(
        `no number column "${column}": expected one of ${[...this.#numbers.keys()].join(", ")}`,
      );
    return found;
  }

  /** Texts of a column, null where missing. Throws RangeError for a column that holds no text. */
  texts(column: TextColumnName | (string & {})): ReadonlyArray<string | null> {
    const found = this.#texts.get(column);
    if (found !== undefined) return found;
    const words = this.#words.get(column);
    if (words === undefined)
      throw new RangeError(
        `no text column "${column}": expected one of ${this.#textNames().join(", ")}`,
      );
    const written = textsOf(words);
    this.#texts.set(column, written);
    return written;
  }

  /**
   * A column of categories as its different words and a code for each row; null for any other
   * column.
   */
  words(column: TextColumnName | (string & {})): WordColumn | null {
    return this.#words.get(column) ?? null;
  }

  /** One number; NaN where missing. */
  number(i: number, column: NumberColumnName | (string & {})): number {
    return this.numbers(column)[this.#checked(i)] ?? NaN;
  }

  /** One text; null where missing. */
  text(i: number, column: TextColumnName | (string & {})): string | null {
    this.#checked(i);
    return this.#text(i, column) ?? this.texts(column)[i] ?? null;
  }

  /** Whether the table holds that column, in the schema or as an extra one. */
  has(column: string): boolean {
    return this.#numbers.has(column) || this.#texts.has(column) || this.#words.has(column);
  }

  /** One row as a record; missing values are null. */
  row(i: number): TestRow {
    this.#checked(i);
    const record: Record<string, ColumnValue | Readonly<Record<string, ExtraValue>>> = {};
    for (const { name } of TEST_COLUMNS) record[name] = this.#value(i, name);
    const extra: Record<string, ExtraValue> = Object.create(null) as Record<string, ExtraValue>;
    for (const { name } of this.extraColumns) extra[name] = this.#value(i, name);
    record["extra"] = extra;
    return record as unknown as TestRow;
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
    const numbers = new Map<string, Float64Array>();
    const texts = new Map<string, ReadonlyArray<string | null>>();
    for (const [name, cells] of this.#numbers) numbers.set(name, numbersAt(cells, indices));
    for (const name of this.#textNames())
      texts.set(
        name,
        indices.map((i) => this.#text(i, name)),
      );
    return new TestTable(
      indices.length,
      { numbers, texts },
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
    const columns = {
      numbers: new Map([...this.#numbers, ...Object.entries(numbers)]),
      texts: new Map([...this.#texts, ...Object.entries(texts)]),
      words: this.#words,
    };
    return new TestTable(this.length, columns, [...this.extraColumns, ...added], this.#sources);
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
    if (!this.#texts.has(column) && !this.#words.has(column))
      throw new RangeError(
        `no text column "${column}": expected one of ${this.#textNames().join(", ")}`,
      );
    const words = new Map(this.#words);
    words.delete(column);
    return new TestTable(
      this.length,
      { numbers: this.#numbers, texts: new Map([...this.#texts, [column, texts]]), words },
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
    const extras = new Map(this.extraColumns.map((column) => [column.name, column]));
    for (const column of other.extraColumns) {
      const mine = extras.get(column.name);
      extras.set(
        column.name,
        mine !== undefined && mine.kind !== column.kind
          ? { name: column.name, kind: "text" }
          : column,
      );
    }
    const numbers = new Map<string, Float64Array>();
    const texts = new Map<string, ReadonlyArray<string | null>>();
    const columns = [
      ...TEST_COLUMNS.map(({ name, kind }) => ({
        name,
        numeric: kind === "number" || kind === "integer",
      })),
      ...[...extras.values()].map(({ name, kind }) => ({ name, numeric: kind === "number" })),
    ];
    for (const { name, numeric } of columns) {
      const cells = [...this.#cells(name), ...other.#cells(name)];
      store(
        name,
        numeric,
        numeric ? cells : cells.map((cell) => (cell === null ? null : String(cell))),
        numbers,
        texts,
      );
    }
    const sources = [...this.#allSources(), ...other.#allSources()];
    return new TestTable(
      this.length + other.length,
      { numbers, texts },
      [...extras.values()],
      sources,
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

  #value(i: number, name: string): ColumnValue {
    const numbers = this.#numbers.get(name);
    if (numbers === undefined) return this.#text(i, name);
    const value = numbers[i];
    return value === undefined || Number.isNaN(value) ? null : value;
  }

  #text(i: number, name: string): string | null {
    const coded = this.#words.get(name);
    return (
      (coded === undefined ? this.#texts.get(name)?.[i] : coded.words[coded.codes[i] ?? 0]) ?? null
    );
  }

  #textNames(): string[] {
    return [...new Set([...this.#words.keys(), ...this.#texts.keys()])];
  }

  #cells(name: string): ColumnValue[] {
    return Array.from({ length: this.length }, (_, i) => this.#value(i, name));
  }

  #allSources(): Array<RowSource | null> {
    return Array.from({ length: this.length }, (_, i) => this.#sourceAt(i));
  }
}
