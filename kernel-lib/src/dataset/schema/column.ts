/** How a cell of a column is read. */
export type ColumnKind = "text" | "category" | "number" | "integer";

/** One column of a table: its name, how it is read, and what it means. The schema is data made of these. */
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

/** The limits of a number column in words, e.g. "a number above 0". */
export function expectedInColumn(column: Column): string {
  if (column.kind === "text") return "a text";
  if (column.kind === "category") return `one of ${(column.categories ?? []).join(", ")}`;
  const noun = column.kind === "integer" ? "a whole number" : "a number";
  const limits: string[] = [];
  if (column.above !== undefined) limits.push(`above ${String(column.above)}`);
  if (column.minimum !== undefined) limits.push(`at least ${String(column.minimum)}`);
  if (column.maximum !== undefined) limits.push(`at most ${String(column.maximum)}`);
  const unit = column.unit === null ? "" : ` in ${column.unit}`;
  return `${noun}${limits.length === 0 ? "" : ` ${limits.join(" and ")}`}${unit}`;
}
