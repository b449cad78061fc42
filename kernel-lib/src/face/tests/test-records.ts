import { layoutOfTests } from "../../comparison";
import type { ExtraValue, TestTable } from "../../dataset";
import { DERIVED_COLUMNS } from "./derived-columns";
import type { TestRow } from "./study-row";

const made = new WeakMap<TestTable, readonly TestRow[]>();

/**
 * The rows of a table with the derived columns, and columns of one's own as `extra.name`; made once
 * for each table.
 */
export function testRecords(table: TestTable): readonly TestRow[] {
  const known = made.get(table);
  if (known) return known;
  const layouts = layoutOfTests(table);
  const records = table.rows().map(({ extra, ...stated }, i): TestRow => {
    const own = new Map<string, ExtraValue>();
    for (const [name, value] of Object.entries(extra)) {
      own.set(DERIVED_COLUMNS.includes(name) ? name : `extra.${name}`, value);
    }
    const derived = Object.fromEntries(own) as Pick<TestRow, `extra.${string}`>;
    return { ...stated, layout: layouts[i]!, ...derived } as TestRow;
  });
  made.set(table, records);
  return records;
}
