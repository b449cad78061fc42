import type { TableColumn, TableRow } from "./column";

/** What a table is made from. */
export interface TableContent {
  /** File name without ending: lower-case letters, digits and hyphens. */
  readonly id: string;
  readonly title: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly TableRow[];
  /** The columns that together tell each row from all others. */
  readonly rowKey: readonly string[];
  /** Remarks under the table. */
  readonly notes?: readonly string[];
  /** What is shown, from which provision, at which level. */
  readonly caption?: string;
}

/** A table that tells each row from all others by one text. */
export interface KeyedTable extends TableContent {
  readonly caption: string;
  rowKeyOf(row: TableRow): string;
}
