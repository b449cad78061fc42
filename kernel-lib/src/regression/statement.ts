import { counted } from "../statistics/reading";
import type { SetAsideRow } from "./model-rows";

/** What every result of this room says of itself. */
export interface RegressionStatement {
  /** Name of the method as the field calls it. */
  readonly method: string;
  readonly assumptions: readonly string[];
  /** Rows used. */
  readonly n: number;
  readonly setAside: readonly SetAsideRow[];
  /** What the reader should be wary of in this very result; empty when nothing. */
  readonly warnings: readonly string[];
  /** One sentence that says what was found. */
  readonly reading: string;
}

/** "; 2 rows excluded", or nothing. */
export function setAsideWords(setAside: readonly SetAsideRow[]): string {
  return setAside.length === 0 ? "" : `; ${counted(setAside.length, "row")} excluded`;
}
