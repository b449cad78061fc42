import { DrawnResult } from "./result";
import { UnknownNameError } from "./names";
import type { Values } from "../tests/study-row";

/** A result that is a set of rows: its columns and its rows one by one. */
export abstract class DrawnRows<R extends object, F extends string, T extends string>
  extends DrawnResult<F, T>
  implements Iterable<R>
{
  /** Names of all columns. */
  abstract readonly columnNames: readonly string[];
  protected abstract records(): readonly R[];

  get length(): number {
    return this.records().length;
  }

  [Symbol.iterator](): Iterator<R> {
    return this.records()[Symbol.iterator]();
  }

  /**
   * The values of one column in the order of the rows: a Float64Array with NaN for a blank, or
   * words with null.
   * @throws UnknownNameError for a column that the rows do not have
   */
  column<C extends keyof R>(name: C): Values<R[C]> {
    return columnValues(this.records(), this.columnNames, name);
  }
}

/**
 * The values of one column of rows: a Float64Array with NaN for a blank, or words with null.
 * @throws UnknownNameError for a column that is not among the names
 */
export function columnValues<R extends object, C extends keyof R>(
  rows: readonly R[],
  names: readonly string[],
  name: C,
): Values<R[C]> {
  if (!names.includes(String(name))) throw new UnknownNameError("column", String(name), names);
  const cells = rows.map((row) => row[name] as string | number | null);
  const numeric =
    cells.some((cell) => typeof cell === "number") &&
    cells.every((cell) => cell === null || typeof cell === "number");
  return (
    numeric ? Float64Array.from(cells, (cell) => (typeof cell === "number" ? cell : NaN)) : cells
  ) as Values<R[C]>;
}
