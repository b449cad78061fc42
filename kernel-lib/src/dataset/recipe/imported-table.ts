import type { DataPackage } from "../reading/data-package";
import type { Diagnostic } from "../diagnostics";
import type { Study } from "../schema/study";
import type { TestTable } from "../table/test-table";
import type { RecipeAssumption } from "./recipe";

/** A source row that the recipe or the schema refused, with the reason. */
export interface RejectedRow {
  readonly row: number;
  readonly reason: string;
  /** The file, where several were imported together. */
  readonly file?: string;
}

/** A foreign table turned into a data set. */
export interface ImportedTable {
  readonly tests: TestTable;
  readonly studies: ReadonlyArray<Study>;
  readonly descriptor: DataPackage;
  readonly rejected: ReadonlyArray<RejectedRow>;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
  /** Rows in the source below its header. */
  readonly sourceRows: number;
  readonly sourceHash: string;
  /** What the recipe assumed, and in how many of the rows. */
  readonly assumed: ReadonlyArray<RecipeAssumption & { readonly rows: number }>;
  /** Every file that was read. */
  readonly sources: ReadonlyArray<{
    readonly file: string;
    readonly sha256: string;
    readonly rows: number;
  }>;
}

/** How a recipe is applied. */
export interface ImportSettings {
  /** Names of the recipe's assumptions to make; all of them when left out. */
  readonly assume?: ReadonlyArray<string>;
}
