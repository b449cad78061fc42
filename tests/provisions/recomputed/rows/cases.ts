import { readFileSync } from "node:fs";
import type { TestRowInput } from "../../../../kernel-lib/src/dataset";
import type { Level } from "../../../../kernel-lib/src/provisions";

/**
 * One case of thinly_covered.json: a row of tests.csv, the options of the code, and the capacity
 * that Python found for it.
 */
export interface RowCase {
  readonly id: string;
  readonly code: string;
  readonly provision: string;
  readonly level: Level;
  readonly what: string;
  readonly row: Partial<TestRowInput>;
  readonly options: Readonly<Record<string, number>>;
  readonly force_N: number;
}

/**
 * Capacities of provisions that few other cases check, computed in Python from the printed
 * equations (thinly_covered.py).
 */
export const ROW_CASES = JSON.parse(
  readFileSync(new URL("thinly_covered.json", import.meta.url), "utf8"),
) as readonly RowCase[];
