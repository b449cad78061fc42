import type { ColumnReader } from "./column-reader";
import type { Delimiter } from "./delimited-text";
import type { Diagnostic } from "../diagnostics";
import type { DecimalSign } from "./number-cells";
import type { RowSetAside } from "./row-set-aside";

/**
 * A table read by a schema: the columns by their schema name, the row of each record, and
 * everything that was found.
 */
export interface TableReading {
  readonly length: number;
  readonly header: ReadonlyArray<string>;
  readonly columns: ReadonlyArray<ColumnReader>;
  readonly rows: ReadonlyArray<number>;
  readonly diagnostics: Diagnostic[];
  readonly rejected: RowSetAside[];
  /** SHA-256 of the file. */
  readonly sha256: string;
  /**
   * For each row the rule by which its load was derived from another measure, null where it was
   * reported.
   */
  readonly derivedBy: ReadonlyArray<string | null>;
}

/** How a file is read where it does not speak for itself. */
export interface ReadingOptions {
  /** Names of extra columns announced by the data set's descriptor. */
  readonly declared?: ReadonlySet<string>;
  readonly delimiter?: Delimiter;
  readonly decimal?: DecimalSign;
  /** Row of the column names, counted from 1; looked for when left out. */
  readonly headerRow?: number;
  /** Sheet of a spreadsheet; the one with most known names when left out. */
  readonly sheet?: string;
}
