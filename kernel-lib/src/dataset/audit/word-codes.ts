import type { TestTable } from "../table/test-table";

/**
 * A number for each different word of a text column, in order of first appearance; blanks are a
 * word of their own.
 * @example wordCodes(tests, "study_id") // [0, 0, 1, 0]
 */
export function wordCodes(tests: TestTable, column: string): ArrayLike<number> {
  const known = tests.words(column);
  if (known !== null) return known.codes;
  const places = new Map<string | null, number>();
  return Uint32Array.from(tests.texts(column), (word) => {
    const place = places.get(word) ?? places.size;
    places.set(word, place);
    return place;
  });
}
