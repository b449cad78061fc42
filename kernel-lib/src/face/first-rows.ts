import { TEST_COLUMNS, type TestTable } from "../dataset";
import { Table } from "../tables";
import { count } from "./results/names";

const MOST_ROWS = 5;

/** What a notebook shows of a table of tests: its size and its first rows, without empty columns. */
export function firstRows(tests: TestTable): Table {
  const rows = Array.from({ length: Math.min(MOST_ROWS, tests.length) }, (_, i) => i);
  const extra = tests.extraColumns.map(({ name, kind }) => ({ name, kind }));
  const columns = [...TEST_COLUMNS, ...extra].filter(({ name }) =>
    rows.some((i) => tests.value(i, name) !== null),
  );
  const shown = rows.length === tests.length ? "" : `; the first ${rows.length} are shown`;
  return new Table({
    id: "tests",
    title: `${count(tests.length, "test")}${shown}`,
    rowKey: ["test_id"],
    columns: columns.map(({ name, kind }) => ({
      key: name,
      title: name,
      kind: kind === "number" || kind === "integer" ? kind : "text",
    })),
    rows: rows.map((i) =>
      Object.fromEntries(columns.map(({ name }) => [name, tests.value(i, name)])),
    ),
    notes: ["Columns that these rows leave blank are left out."],
  });
}
