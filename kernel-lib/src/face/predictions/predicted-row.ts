import type { FailureMode, Level } from "../../provisions";
import type { TestRow } from "../tests/study-row";

/** One test or what-if row with the governing capacity by one code. */
export interface PredictedRow extends TestRow {
  readonly code: string;
  readonly level: Level;
  /** Of the governing capacity; null where none applies, and for an interaction. */
  readonly provision: string | null;
  readonly clause: string | null;
  readonly governing_mode: FailureMode | "interaction" | null;
  readonly capacity_kN: number | null;
  /** Peak load; null for rows that nobody tested. */
  readonly load_kN: number | null;
  /**
   * Peak load over the governing capacity, whatever mode was observed; null without a load and for
   * excluded tests.
   */
  readonly ratio: number | null;
  /** Modes that the test can reach and that lack an input; null where there are none. */
  readonly missing: string | null;
  /** Stated limits of the governing provision that the row exceeds; null where there are none. */
  readonly outside: string | null;
  /** Why no capacity governs; null where one does. */
  readonly reason: string | null;
}

/** The columns that a prediction adds to those of the tests. */
export const PREDICTED_COLUMNS = [
  "code",
  "level",
  "provision",
  "clause",
  "governing_mode",
  "capacity_kN",
  "load_kN",
  "ratio",
  "missing",
  "outside",
  "reason",
] as const satisfies readonly (keyof PredictedRow)[];
