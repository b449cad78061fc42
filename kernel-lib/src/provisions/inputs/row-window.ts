import type { TestColumns } from "./prepare";

/**
 * Rows of a window: enough that a loop over them runs at full speed, few enough that what it makes
 * is small beside a large table.
 */
const WINDOW = 65_536;

/**
 * The rows `from` to `to` (not counted) of a table: numbers on its own columns, words as codes,
 * texts made once.
 */
function rowWindow(tests: TestColumns, from: number, to: number): TestColumns {
  const texts = new Map<string, ReadonlyArray<string | null>>();
  const textsIn = (column: string): ReadonlyArray<string | null> => {
    const coded = tests.words?.(column) ?? null;
    return coded === null
      ? tests.texts(column).slice(from, to)
      : Array.from(
          { length: to - from },
          (_, i) => coded.words[coded.codes[from + i] ?? 0] ?? null,
        );
  };
  return {
    length: to - from,
    has: (column) => tests.has(column),
    numbers: (column) => tests.numbers(column).subarray(from, to),
    texts: (column) => {
      const made = texts.get(column) ?? textsIn(column);
      texts.set(column, made);
      return made;
    },
  };
}

/**
 * A table in windows of rows, so that what is made for each row of a large one is held for a window
 * at a time.
 * @returns the windows in order, each with the index of its first row; the table itself where one
 *   window holds it
 */
export function* rowWindows(
  tests: TestColumns,
  rows: number = WINDOW,
): Generator<{ readonly from: number; readonly tests: TestColumns }> {
  if (tests.length <= rows) yield { from: 0, tests };
  else
    for (let from = 0; from < tests.length; from += rows)
      yield { from, tests: rowWindow(tests, from, Math.min(tests.length, from + rows)) };
}
