import type { TestColumns } from "./prepare";

/** Numbers that take the place of a row's own: one for all, or one for each repeat. */
export type Changes = Readonly<Record<string, number | Float64Array>>;

/**
 * One row of a table, repeated, with some of its numbers changed: what a search, a map or a
 * simulation evaluates.
 * @throws RangeError where a changed column does not have `length` values, or one that the table
 *   has holds text
 * @example
 * predict(code("aci318-19"), new VariedRow(tests, 0, { embedment_mm: Float64Array.of(80, 100, 120) }, 3))
 */
export class VariedRow implements TestColumns {
  readonly #row: number;

  constructor(
    readonly tests: TestColumns,
    row: number,
    readonly changes: Changes,
    readonly length: number,
  ) {
    this.#row = row;
    if (!Number.isInteger(row) || row < 0 || row >= tests.length)
      throw new RangeError(`no row ${row}: expected a whole number from 0 to ${tests.length - 1}`);
    for (const [column, values] of Object.entries(changes)) {
      if (typeof values !== "number" && values.length !== length)
        throw new RangeError(
          `column ${column} is changed to ${values.length} values, expected ${length}`,
        );
      if (tests.has(column)) tests.numbers(column);
    }
  }

  has(column: string): boolean {
    return Object.hasOwn(this.changes, column) || this.tests.has(column);
  }

  numbers(column: string): Float64Array {
    const changed = Object.hasOwn(this.changes, column) ? this.changes[column] : undefined;
    if (changed instanceof Float64Array) return changed;
    return new Float64Array(this.length).fill(
      changed ?? this.tests.numbers(column)[this.#row] ?? NaN,
    );
  }

  texts(column: string): ReadonlyArray<string | null> {
    return new Array<string | null>(this.length).fill(this.tests.texts(column)[this.#row] ?? null);
  }
}
