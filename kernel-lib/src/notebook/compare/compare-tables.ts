import { compareValues, isRecord, shortJson } from "./compare-values";
import type { DifferenceList } from "./difference";

/** Media type under which a cell's table stands as data: { columns, rows, key }. */
export const TABLE_TYPE = "application/vnd.code-comparison.table+json";

type Row = Record<string, unknown>;
interface TableValue {
  readonly columns: readonly string[];
  readonly rows: ReadonlyMap<string, Row>;
}

/** Compares two tables row by row, found by their keys, and column by column, found by their names. */
export function compareTables(where: string, recorded: unknown, rerun: unknown, list: DifferenceList): void {
  const before = readTable(recorded);
  const after = readTable(rerun);
  if (!before || !after) return compareValues(where, recorded, rerun, list);
  const columns = [...before.columns, ...after.columns.filter((name) => !before.columns.includes(name))];
  for (const name of columns) {
    if (!after.columns.includes(name)) list.other(`${where}, column ${name}`, "present", "missing");
    if (!before.columns.includes(name)) list.other(`${where}, column ${name}`, "missing", "present");
  }
  for (const [key, row] of before.rows) {
    const other = after.rows.get(key);
    if (!other) {
      list.other(`${where}, row ${key}`, shortJson(row), "missing");
      continue;
    }
    for (const name of columns) {
      if (name in row && name in other) compareValues(`${where}, row ${key}, column ${name}`, row[name], other[name], list);
    }
  }
  for (const [key, row] of after.rows) {
    if (!before.rows.has(key)) list.other(`${where}, row ${key}`, "missing", shortJson(row));
  }
}

function readTable(value: unknown): TableValue | undefined {
  if (!isRecord(value) || !Array.isArray(value["columns"]) || !Array.isArray(value["rows"])) return undefined;
  const columns = value["columns"].map((column: unknown) => (isRecord(column) ? String(column["key"] ?? column["name"]) : String(column)));
  const keyColumns = [value["key"]].flat().map(String);
  const rows = new Map<string, Row>();
  value["rows"].forEach((raw: unknown, index) => {
    const row = Array.isArray(raw) ? Object.fromEntries(columns.map((name, at) => [name, (raw as unknown[])[at]])) : isRecord(raw) ? raw : {};
    const named = keyColumns.filter((name) => name in row).map((name) => String(row[name]));
    const key = named.length > 0 ? named.join(" / ") : String(index + 1);
    // Two rows of one key are told apart by their order.
    rows.set(rows.has(key) ? `${key} (${index + 1})` : key, row);
  });
  return { columns, rows };
}
