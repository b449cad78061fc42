import { layoutOfTests } from "../../comparison";
import type { TestTable } from "../../dataset";
import { DERIVED_COLUMNS } from "./derived-columns";
import type { TestRow } from "./study-row";

const made = new WeakMap<TestTable, readonly TestRow[]>();

/** The rows of a table with the derived columns, and columns of one's own as `extra.name`; made once for each table. */
export function testRecords(table: TestTable): readonly TestRow[] {
  const known = made.get(table);
  if (known) return known;
  const layouts = layoutOfTests(table);
  const records = table.rows().map(({ extra, ...stated }, i) => {
    const own = Object.entries(extra).map(([name, value]) => [DERIVED_COLUMNS.includes(name) ? name : `extra.${name}`, value]);
    return { ...stated, layout: layouts[i], ...Object.fromEntries(own) } as unknown as TestRow;
  });
  made.set(table, records);
  return records;
}
