import { UnknownNameError } from "../results/names";
import { checkedCondition } from "./condition-text";
import { conditionWords, type Cell } from "./condition-words";

/**
 * What a column may be asked for: a value, a list, anything but, or a range (both ends included).
 */
export type Wanted<T> =
  | T
  | readonly T[]
  | { readonly not: T | readonly T[] }
  | { readonly from?: Exclude<T, null>; readonly to?: Exclude<T, null> };

/**
 * Values that columns must have; or a condition as text, such as
 * `"embedment_mm >= 100 && bar_material == 'gfrp'"` (the language of `--where`); or a function of
 * the row.
 */
export type Condition<R> =
  { readonly [K in keyof R]?: Wanted<R[K]> } | string | ((row: R) => boolean);

type Read = (column: string) => Cell;

/** A condition made ready for rows that are read by column; functions get the whole row. */
export interface ReadyCondition<R> {
  readonly words: string;
  holds(read: Read, row: () => R): boolean;
}

/**
 * A condition made ready.
 * @param known the columns there are
 * @throws UnknownNameError for a column that the rows do not have, or a word it never holds
 */
export function readyCondition<R>(
  condition: Condition<R>,
  known: readonly string[],
): ReadyCondition<R> {
  if (typeof condition === "string") {
    const parsed = checkedCondition(condition, known);
    return { words: condition.trim(), holds: (read) => parsed.holds(read) };
  }
  if (typeof condition === "function")
    return { words: "rows by a condition of the notebook", holds: (_, row) => condition(row()) };
  const entries = Object.entries(condition as Readonly<Record<string, unknown>>).filter(
    ([, wanted]) => wanted !== undefined,
  );
  for (const [column] of entries)
    if (!known.includes(column)) throw new UnknownNameError("column", column, known);
  const tests = entries.map(([column, wanted]) => ({ column, fits: fitting(wanted) }));
  return {
    words: entries.map(([column, wanted]) => conditionWords(column, wanted)).join(", "),
    holds: (read) => tests.every(({ column, fits }) => fits(read(column))),
  };
}

function fitting(wanted: unknown): (cell: Cell) => boolean {
  if (Array.isArray(wanted)) return (cell) => (wanted as readonly Cell[]).includes(cell);
  if (typeof wanted !== "object" || wanted === null) return (cell) => cell === wanted;
  if ("not" in wanted) {
    const fits = fitting(wanted.not);
    return (cell) => !fits(cell);
  }
  const { from, to } = wanted as { readonly from?: string | number; readonly to?: string | number };
  if (from === undefined && to === undefined)
    throw new RangeError(
      `A condition ${JSON.stringify(wanted)} states nothing; expected a value, a list, { not } or { from, to }.`,
    );
  return (cell) =>
    cell !== null && (from === undefined || cell >= from) && (to === undefined || cell <= to);
}
