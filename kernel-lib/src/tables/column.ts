/**
 * What a column holds: a verdict is a word that a reader must never mistake, a number is shown
 * rounded.
 */
export type ColumnKind = "text" | "number" | "integer" | "verdict";

export type Align = "left" | "right" | "center";

/** One column of a table. */
export interface TableColumn {
  /** Name in the rows and in the CSV header. */
  readonly key: string;
  /** Heading for a reader, without the unit. */
  readonly title: string;
  readonly kind: ColumnKind;
  /** Unit, shown in the heading; absent for a dimensionless or a text column. */
  readonly unit?: string;
  /** Significant digits shown (default 3); the full number stays in the CSV and XLSX. */
  readonly digits?: number;
  /**
   * Of a share from 0 to 1: decimals shown, in place of significant digits ("below 0.01" where none
   * would be left).
   */
  readonly decimals?: number;
  /** Numbers are set right, everything else left, unless told otherwise. */
  readonly align?: Align;
  /** A remark on the column, listed under the table. */
  readonly note?: string;
  /**
   * A limit that a verdict depends on: rounding never moves a number onto or across it.
   * Default 1 for numbers without a unit (ratios), none otherwise; null switches it off.
   */
  readonly limit?: number | null;
}

export type CellValue = string | number | boolean | null;
export type TableRow = Readonly<Record<string, CellValue>>;

const defaultDigits = 3;

/** True where the cells are numbers. */
export function isNumeric(column: TableColumn): boolean {
  return column.kind === "number" || column.kind === "integer";
}

/**
 * Alignment of the cells: numbers to the right, text to the left, unless the column says otherwise.
 */
export function alignOf(column: TableColumn): Align {
  return column.align ?? (isNumeric(column) ? "right" : "left");
}

/** Significant digits shown, 3 unless the column says otherwise. */
export function digitsOf(column: TableColumn): number {
  return column.digits ?? defaultDigits;
}

/**
 * The limit that rounding must not carry a number across: the column's own, else 1 for a number
 * without a unit, else none.
 */
export function limitOf(column: TableColumn): number | null {
  if (column.limit !== undefined) return column.limit;
  return column.kind === "number" && column.unit === undefined ? 1 : null;
}

/** Heading with the unit in brackets, as every writer shows it. */
export function headingOf(column: TableColumn): string {
  return column.unit === undefined || column.unit === ""
    ? column.title
    : `${column.title} (${column.unit})`;
}

/** A number that is missing: null, NaN and infinities are all shown as an en dash. */
export function isMissing(value: CellValue | undefined): boolean {
  return (
    value === null ||
    value === undefined ||
    value === "" ||
    (typeof value === "number" && !Number.isFinite(value))
  );
}
