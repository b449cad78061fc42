import type { Comparison } from "../../comparison";
import { TEST_COLUMNS } from "../../dataset";
import { clauseOf } from "../../provisions";
import { Table, type CellValue, type TableColumn } from "../../tables";

/** Names of the files with every row. */
export const ROW_FILES = { csv: "data/rows.csv", xlsx: "data/rows.xlsx" } as const;

/**
 * Every row read that became a test, with its inputs: one line for each ratio that is used (a test
 * may also be a lower bound of other modes), and one line with the reason for a test that is not.
 * Loads and capacities in kN.
 */
export function rowTable(comparison: Comparison): Table {
  const { evidence, unused, prediction } = comparison;
  const inputs = inputColumns(comparison);
  const lines = new Map<number, Record<string, CellValue>[]>();
  const add = (row: number, line: Record<string, CellValue>): void => {
    const known = lines.get(row);
    if (known) known.push(line);
    else lines.set(row, [line]);
  };
  for (const { row, column, mode, load, capacity, ratio, bound } of evidence)
    add(row, {
      mode,
      clause: column < 0 ? "interaction" : clauseOf(prediction.columns[column]!.provision.id),
      load_kN: load,
      capacity_kN: capacity,
      ratio,
      status: bound ? "lower bound" : "failure",
    });
  for (const { row, status, reason } of unused) add(row, { status, reason });
  const rows = [...lines].sort(([a], [b]) => a - b);
  return new Table({
    id: "rows",
    title: "Every row with inputs, prediction, ratio and status",
    rowKey: ["test_id", "mode", "clause", "status"],
    columns: [
      ...inputs,
      text("mode", "mode judged"),
      text("clause", "clause"),
      quantity("load_kN", "load compared", "kN"),
      quantity("capacity_kN", "predicted capacity", "kN"),
      quantity("ratio", "test/predicted"),
      text("status", "status"),
      text("reason", "reason"),
    ],
    rows: rows.flatMap(([row, of]) =>
      of.map((line) => ({
        ...Object.fromEntries(inputs.map(({ key }) => [key, inputOf(comparison, row, key)])),
        ...line,
      })),
    ),
  });
}

const text = (key: string, title: string): TableColumn => ({ key, title, kind: "text" });
const quantity = (key: string, title: string, unit?: string): TableColumn => ({
  key,
  title,
  kind: "number",
  ...(unit === undefined ? {} : { unit }),
});

/** The columns of the tests that hold anything, under the names of the data files. */
function inputColumns({ tests }: Comparison): TableColumn[] {
  return [...TEST_COLUMNS, ...tests.extraColumns]
    .map(({ name }) => name)
    .flatMap((name): TableColumn[] => {
      const values = Array.from({ length: tests.length }, (_, row) => tests.value(row, name));
      if (values.every((value) => value === null || Number.isNaN(value))) return [];
      const numbers = values.every((value) => value === null || typeof value === "number");
      return [{ key: name, title: name, kind: numbers ? "number" : "text" }];
    });
}

function inputOf({ tests }: Comparison, row: number, name: string): CellValue {
  const value = tests.value(row, name);
  return value === null || Number.isNaN(value) ? null : value;
}
