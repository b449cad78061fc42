import { testColumn } from "../schema/test-columns";
import type { WordColumn } from "./word-column";

/**
 * The stored columns of a table: numbers as Float64Array with NaN for missing, texts with null for
 * missing.
 */
export interface ColumnStore {
  readonly numbers: ReadonlyMap<string, Float64Array>;
  readonly texts: ReadonlyMap<string, ReadonlyArray<string | null>>;
  /** Columns of categories that are at hand as codes already. */
  readonly words?: ReadonlyMap<string, WordColumn>;
}

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

/** Where all rows of a table were read: one file, and its row for each. */
export interface FileRows {
  readonly file: string;
  readonly rows: ArrayLike<number>;
}

/** What a cell of a table may hold. */
export type ColumnValue = string | number | null;

/**
 * Puts the cells of a column where its kind belongs. @throws TypeError for a text among numbers or
 * a number among texts
 */
export function store(
  name: string,
  numeric: boolean,
  cells: ReadonlyArray<ColumnValue>,
  numbers: Map<string, Float64Array>,
  texts: Map<string, ReadonlyArray<string | null>>,
): void {
  if (numeric)
    numbers.set(
      name,
      Float64Array.from(cells, (cell) => numberCell(name, cell)),
    );
  else
    texts.set(
      name,
      cells.map((cell) => textCell(name, cell)),
    );
}

function numberCell(name: string, cell: ColumnValue): number {
  if (cell === null) return NaN;
  if (typeof cell === "number") return cell;
  throw new TypeError(
    `column ${name} holds numbers: got the text "${cell}", expected ${testColumn(name)?.unit ?? "a number"}`,
  );
}

function textCell(name: string, cell: ColumnValue): string | null {
  if (cell === null || typeof cell === "string") return cell;
  throw new TypeError(
    `column ${name} holds text: got the number ${String(cell)}, expected a text or null`,
  );
}

/** A plain loop: ten times as fast as Float64Array.from with a function. */
export function numbersAt(cells: Float64Array, indices: ReadonlyArray<number>): Float64Array {
  const taken = new Float64Array(indices.length);
  for (let k = 0; k < taken.length; k += 1) taken[k] = cells[indices[k] ?? 0] ?? NaN;
  return taken;
}

/** The places for which the predicate holds. */
export function indicesWhere(length: number, holds: (i: number) => boolean): number[] {
  const indices: number[] = [];
  for (let i = 0; i < length; i += 1) if (holds(i)) indices.push(i);
  return indices;
}
