import type { DataPackage } from "./reading/data-package";
import type { Diagnostic } from "./diagnostics";
import type { RowSetAside } from "./reading/row-set-aside";
import type { Study } from "./schema/study";
import type { TestTable } from "./table/test-table";

/** A data set folder as read, or several joined. */
export interface Dataset {
  readonly name: string;
  readonly folders: ReadonlyArray<string>;
  readonly tests: TestTable;
  readonly studies: ReadonlyArray<Study>;
  /**
   * The text of the card (README.md), null where there is none; of several folders, one after the
   * other.
   */
  readonly card: string | null;
  readonly descriptor: DataPackage | null;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
  readonly rejected: ReadonlyArray<RowSetAside>;
  /** SHA-256 of every file read, by its path within the data set ("demo/tests.csv"). */
  readonly hashes: Readonly<Record<string, string>>;
}
