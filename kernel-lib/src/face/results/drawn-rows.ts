import { markFigure, type Plot } from "../plot/mark-figure";
import type { Values } from "../tests/study-row";
import { KeptFigure } from "./kept";
import { UnknownNameError } from "./names";
import { DrawnResult } from "./result";

/** A result that is a set of rows: its columns and its rows one by one. */
export abstract class DrawnRows<R extends object, F extends string, T extends string>
  extends DrawnResult<F, T>
  implements Iterable<R>
{
  /** Names of all columns. */
  abstract readonly columnNames: readonly string[];
  protected abstract records(): readonly R[];

  /** Names of the columns that hold numbers in some row and words in none. */
  get numberColumns(): readonly string[] {
    const rows = this.records();
    const holds = (name: string, kind: string): boolean =>
      rows.some((row) => typeof row[name as keyof R] === kind);
    return this.columnNames.filter((name) => holds(name, "number") && !holds(name, "string"));
  }

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

  /**
   * A figure of your own: columns to marks. Lower bounds are open triangles; a least-squares line
   * leaves them out, and the caption says so.
   * @throws UnknownNameError for a column that the rows do not have
   * @example
   * ratios.plot({ x: "embedment_mm", y: "ratio", color: "bar_material", reference: 1, size: "one column" })
   */
  plot(marks: Plot<R>): KeptFigure {
    const { invented, keeps } = this.setting;
    const basis = { name: this.name, told: this.answer, invented, known: this.columnNames };
    return new KeptFigure(markFigure(this.records(), marks, basis), keeps);
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
