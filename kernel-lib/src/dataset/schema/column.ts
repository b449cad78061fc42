/** How a cell of a column is read. */
export type ColumnKind = "text" | "category" | "number" | "integer";

/**
 * One column of a table: its name, how it is read, and what it means. The schema is data made of
 * these.
 */
export interface Column {
  readonly name: string;
  readonly kind: ColumnKind;
  /** Unit of the numbers in the column, null for text and for plain numbers. */
  readonly unit: string | null;
  readonly required: boolean;
  /** Allowed words of a category column. */
  readonly categories?: ReadonlyArray<string>;
  /** True when a word outside `categories` is kept and only pointed out. */
  readonly open?: boolean;
  /** Smallest allowed number. */
  readonly minimum?: number;
  /** The number must be greater than this. */
  readonly above?: number;
  /** Largest allowed number. */
  readonly maximum?: number;
  readonly meaning: string;
}

/**
 * The limits of a number column in words, e.g. "a number above 0 in kN". For a file in another unit
 * they are given in that one first, since that is what its writer has before him.
 * @param foreign the file's unit as typed and its factor to ours
 */
export function expectedInColumn(
  column: Column,
  foreign: { readonly unit: string; readonly factor: number } | null = null,
): string {
  if (column.kind === "text") return "a text";
  if (column.kind === "category") return `one of ${(column.categories ?? []).join(", ")}`;
  const noun = column.kind === "integer" ? "a whole number" : "a number";
  const own = limits(column, 1, column.unit);
  if (foreign === null) return `${noun}${own}`;
  return `${noun}${limits(column, foreign.factor, `[${foreign.unit}]`)}, which is read as ${column.name}:${own}`;
}

function limits({ above, minimum, maximum }: Column, factor: number, unit: string | null): string {
  const shown = (limit: number): string =>
    String(factor === 1 ? limit : Number((limit / factor).toPrecision(4)));
  const parts: string[] = [];
  if (above !== undefined) parts.push(`above ${shown(above)}`);
  if (minimum !== undefined) parts.push(`at least ${shown(minimum)}`);
  if (maximum !== undefined) parts.push(`at most ${shown(maximum)}`);
  return `${parts.length === 0 ? "" : ` ${parts.join(" and ")}`}${unit === null ? "" : ` in ${unit}`}`;
}
