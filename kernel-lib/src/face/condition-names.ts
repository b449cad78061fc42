import { TEST_COLUMNS } from "../dataset";

/**
 * What may follow in a condition written as text: the values of a column inside its quotes, else
 * columns. The kernel asks for it while a cell is written.
 * @param before the condition up to the cursor
 * @example conditionNames("bar_material == 'g").names // ["steel", "gfrp", ...]
 */
export function conditionNames(before: string): {
  readonly word: string;
  readonly names: readonly string[];
} {
  const [, column, value] = /(\w+)\s*[!=]=\s*["']([^"']*)$/.exec(before) ?? [];
  if (column !== undefined && value !== undefined) {
    const { categories = [] } = TEST_COLUMNS.find(({ name }) => name === column) ?? {};
    return { word: value, names: categories };
  }
  const word = /\w*$/.exec(before)?.[0] ?? "";
  return { word, names: TEST_COLUMNS.map(({ name }) => name) };
}

(globalThis as Record<symbol, unknown>)[Symbol.for("code-comparison.condition-names")] =
  conditionNames;
