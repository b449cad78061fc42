import { counted } from "../statistics/reading";
import type { SetAsideRow } from "./model-rows";

/** What every result of this room says of itself. */
export interface RegressionStatement {
  /** Name of the method as the field calls it. */
  readonly method: string;
  readonly assumptions: readonly string[];
  /** Rows used. */
  readonly n: number;
  readonly excluded: readonly SetAsideRow[];
  /** What the reader should be wary of in this very result; empty when nothing. */
  readonly warnings: readonly string[];
  /** One sentence that says what was found. */
  readonly reading: string;
}

/** "; 2 rows excluded", or nothing. */
export function setAsideWords(excluded: readonly SetAsideRow[]): string {
  return excluded.length === 0 ? "" : `; ${counted(excluded.length, "row")} excluded`;
}
