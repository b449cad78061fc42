import { compareValues, isRecord, shortJson } from "./compare-values";
import { sizeOf } from "./difference";
import type { DifferenceList } from "./difference";

/** Media type under which a cell's table stands as data: { columns, rows, key }. */
export const TABLE_TYPE = "application/vnd.code-comparison.table+json";

type Row = Record<string, unknown>;
interface TableValue {
  /** What the table says of each column, by its name. */
  readonly columns: ReadonlyMap<string, unknown>;
  readonly rows: ReadonlyMap<string, { readonly row: Row; readonly key: readonly string[] }>;
  /** Whatever else the table holds. */
  readonly rest: Row;
}

/**
 * Compares two tables row by row, found by their keys, and column by column, found by their names.
 */
export function compareTables(
  where: string,
  recorded: unknown,
  rerun: unknown,
  list: DifferenceList,
): void {
  const before = readTable(recorded);
  const after = readTable(rerun);
  if (!before || !after) return compareValues(where, recorded, rerun, list);
  const names = new Set([...before.columns.keys(), ...after.columns.keys()]);
  for (const name of names) {
    list.within({ column: name }, () => {
      if (!after.columns.has(name)) list.other(`${where}, column ${name}`, "present", "missing");
      else if (!before.columns.has(name))
        list.other(`${where}, column ${name}`, "missing", "present");
      else
        compareValues(
          `${where}, heading of column ${name}`,
          before.columns.get(name),
          after.columns.get(name),
          list,
        );
    });
  }
  const common = [...names]
    .filter((name) => before.columns.has(name) && after.columns.has(name))
    .map((name) => [name, Math.max(columnSize(before, name), columnSize(after, name))] as const);
  for (const [id, { row, key }] of before.rows) {
    const other = after.rows.get(id);
    list.within({ row: key }, () => {
      if (!other) list.other(`${where}, row ${id}`, rowWords(row), "missing");
      else compareRows(`${where}, row ${id}`, common, row, other.row, list);
    });
  }
  for (const [id, { row, key }] of after.rows) {
    if (!before.rows.has(id))
      list.within({ row: key }, () => list.other(`${where}, row ${id}`, "missing", rowWords(row)));
  }
  compareValues(where, before.rest, after.rest, list);
}

function columnSize({ rows }: TableValue, name: string): number {
  return sizeOf([...rows.values()].map(({ row }) => row[name]));
}

function keyText(value: unknown): string {
  return typeof value === "string"
    ? value
    : value === null || value === undefined
      ? ""
      : shortJson(value);
}

function rowWords(row: Row): string {
  const text = Object.entries(row)
    .map(([name, value]) => `${name} ${typeof value === "string" ? value : shortJson(value)}`)
    .join(", ");
  return text.length > 160 ? `${text.slice(0, 159)}…` : text;
}

function compareRows(
  where: string,
  columns: readonly (readonly [name: string, size: number])[],
  recorded: Row,
  rerun: Row,
  list: DifferenceList,
): void {
  for (const [name, size] of columns)
    list.within({ column: name }, () =>
      compareValues(`${where}, column ${name}`, recorded[name], rerun[name], list, size),
    );
}

function readTable(value: unknown): TableValue | undefined {
  if (!isRecord(value) || !Array.isArray(value["columns"]) || !Array.isArray(value["rows"]))
    return undefined;
  const { columns: _columns, rows: _rows, ...rest } = value;
  const columns = new Map(
    (value["columns"] as unknown[]).map((column) => [
      isRecord(column) ? String(column["key"] ?? column["name"]) : String(column),
      column,
    ]),
  );
  const names = [...columns.keys()];
  const keyColumns = [value["key"]].flat().map(String);
  const rows = new Map<string, { row: Row; key: string[] }>();
  value["rows"].forEach((raw: unknown, index) => {
    const row = Array.isArray(raw)
      ? Object.fromEntries(names.map((name, at) => [name, (raw as unknown[])[at]]))
      : isRecord(raw)
        ? raw
        : {};
    const key = keyColumns.filter((name) => name in row).map((name) => keyText(row[name]));
    const id = key.length > 0 ? key.join(" / ") : String(index + 1);
    // Two rows of one key are distinguished by their order.
    rows.set(rows.has(id) ? `${id} (${index + 1})` : id, { row, key });
  });
  return { columns, rows, rest };
}
