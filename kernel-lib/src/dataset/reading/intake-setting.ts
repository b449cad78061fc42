import type { ColumnReader } from "./column-reader";
import type { Delimiter } from "./delimited-text";

/** What rows are taken by. */
export interface IntakeSetting {
  readonly file: string;
  readonly header: ReadonlyArray<string>;
  readonly columns: ReadonlyArray<ColumnReader>;
  /** The column whose values must be unique. */
  readonly key: string | null;
  /** Reasons that hold for every row of the file. */
  readonly standing: ReadonlyArray<string>;
  readonly delimiter: Delimiter;
  /** Whether a blank load may be derived from another measure of its row. */
  readonly derivable: boolean;
}
