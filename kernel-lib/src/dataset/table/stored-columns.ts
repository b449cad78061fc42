import { testColumn } from "../schema/test-columns";
import { numbersAt, type ColumnStore, type ColumnValue } from "./column-store";
import { textsOf, wordColumn, type WordColumn } from "./word-column";

type Texts = ReadonlyArray<string | null>;

/**
 * The columns of a table: numbers, texts, and columns of categories kept as codes, whose texts are
 * written out when first asked for.
 */
export class StoredColumns {
  readonly #numbers: ReadonlyMap<string, Float64Array>;
  readonly #words: ReadonlyMap<string, WordColumn>;
  readonly #texts: Map<string, Texts>;

  constructor(store: ColumnStore) {
    this.#numbers = store.numbers;
    const words = new Map<string, WordColumn>(store.words ?? []);
    // Columns that share one array of texts (blank ones) share their codes too.
    const coded = new Map<Texts, WordColumn | null>();
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

  /** @throws RangeError for a column that holds no numbers */
  numbers(column: string): Float64Array {
    const found = this.#numbers.get(column);
    if (found === undefined)
      throw new RangeError(
        `no number column "${column}": expected one of ${[...this.#numbers.keys()].join(", ")}`,
      );
    return found;
  }

  /** @throws RangeError for a column that holds no text */
  texts(column: string): Texts {
    const found = this.#texts.get(column);
    if (found !== undefined) return found;
    const words = this.#words.get(column);
    if (words === undefined) throw this.#noText(column);
    const written = textsOf(words);
    this.#texts.set(column, written);
    return written;
  }

  /** A column of categories as words and codes; null for any other column. */
  words(column: string): WordColumn | null {
    return this.#words.get(column) ?? null;
  }

  has(column: string): boolean {
    return this.#numbers.has(column) || this.#texts.has(column) || this.#words.has(column);
  }

  /** One cell; null where missing. */
  value(i: number, name: string): ColumnValue {
    const numbers = this.#numbers.get(name);
    if (numbers === undefined) return this.text(i, name);
    const value = numbers[i];
    return value === undefined || Number.isNaN(value) ? null : value;
  }

  /** One text, without writing out its column; null where missing. */
  text(i: number, name: string): string | null {
    const coded = this.#words.get(name);
    return (
      (coded === undefined ? this.#texts.get(name)?.[i] : coded.words[coded.codes[i] ?? 0]) ?? null
    );
  }

  /** All columns at these rows. */
  at(indices: ReadonlyArray<number>): ColumnStore {
    const numbers = new Map<string, Float64Array>();
    const texts = new Map<string, Texts>();
    for (const [name, cells] of this.#numbers) numbers.set(name, numbersAt(cells, indices));
    for (const name of this.#textNames())
      texts.set(
        name,
        indices.map((i) => this.text(i, name)),
      );
    return { numbers, texts };
  }

  /** With further columns, whose names must be new. */
  with(
    numbers: Readonly<Record<string, Float64Array>>,
    texts: Readonly<Record<string, Texts>>,
  ): ColumnStore {
    return {
      numbers: new Map([...this.#numbers, ...Object.entries(numbers)]),
      texts: new Map([...this.#texts, ...Object.entries(texts)]),
      words: this.#words,
    };
  }

  /** With other texts in one column. @throws RangeError for a column that holds no text */
  withTexts(column: string, texts: Texts): ColumnStore {
    if (!this.#texts.has(column) && !this.#words.has(column)) throw this.#noText(column);
    const words = new Map(this.#words);
    words.delete(column);
    return { numbers: this.#numbers, texts: new Map([...this.#texts, [column, texts]]), words };
  }

  #textNames(): string[] {
    return [...new Set([...this.#words.keys(), ...this.#texts.keys()])];
  }

  #noText(column: string): RangeError {
    return new RangeError(
      `no text column "${column}": expected one of ${this.#textNames().join(", ")}`,
    );
  }
}
