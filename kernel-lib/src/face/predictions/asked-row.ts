import { TestTable } from "../../dataset";
import { knownName } from "../results/names";
import type { ChosenRows } from "../tests/chosen-rows";

/** The one row that a question is about, as a table of its own. */
export interface AskedRow {
  readonly table: TestTable;
  readonly id: string;
  /** Whether somebody tested it. */
  readonly tested: boolean;
  /** How many rows were chosen; more than 1 where the first stands for them. */
  readonly of: number;
  /** All rows chosen. */
  readonly chosen: TestTable;
}

/** The row named. @throws UnknownNameError naming the nearest test */
export function rowNamed({ table, whatIf }: ChosenRows, test: string): AskedRow {
  const ids = table.texts("test_id").map((id) => id ?? "");
  knownName("test", test, ids);
  const row = table.select([ids.indexOf(test)]);
  return { table: row, id: test, tested: whatIf === undefined, of: 1, chosen: row };
}

/** The first of the rows chosen; null where there is none. */
export function firstRow({ table, whatIf }: ChosenRows): AskedRow | null {
  if (table.length === 0) return null;
  return {
    table: table.select([0]),
    id: table.text(0, "test_id") ?? "",
    tested: whatIf === undefined,
    of: table.length,
    chosen: table,
  };
}

/** The row with blanks in place of some numbers, so that what is computed takes their place. */
export function withoutNumbers(asked: AskedRow, columns: readonly string[]): AskedRow {
  const blank = Object.fromEntries(columns.map((column) => [column, null]));
  return { ...asked, table: TestTable.fromRows([{ ...asked.table.row(0), ...blank }]) };
}

/** "IH-075-1", or "IH-075-1 (the first of 12 rows)". */
export function rowWords({ id, of }: AskedRow): string {
  return of === 1 ? id : `${id} (the first of ${of} rows chosen)`;
}

/** Why a question has no answer where no row was chosen. */
export const NO_ROW = "No row meets the conditions, so nothing can be evaluated.";
