import type { CountedReason } from "../../comparison";
import type { TestTable } from "../../dataset";

/** Rows of a study, and how they were chosen. */
export interface ChosenRows {
  readonly table: TestTable;
  /** Conditions that the rows meet, in words; empty for all rows. */
  readonly conditions: readonly string[];
  /** Rows that reading rejected: they never became tests. */
  readonly rejected: readonly CountedReason[];
  /** Of rows that nobody tested: they have no load and no observed mode. Absent for tests. */
  readonly whatIf?: WhatIf;
}

/** How rows that nobody tested came about. */
export interface WhatIf {
  /** The columns changed. */
  readonly columns: readonly string[];
  /** Sentences on what became blank because it belongs to a changed column. */
  readonly blanked: readonly string[];
}
