import { TEST_COLUMNS } from "../schema/test-columns";
import type { TestRowInput } from "../schema/test-row";
import { store, type ColumnStore, type ColumnValue, type ExtraColumn } from "./column-store";

/** The columns of rows written by hand or generated; missing columns and nulls stay missing. */
export function columnsOfRows(rows: ReadonlyArray<TestRowInput>): {
  readonly columns: ColumnStore;
  readonly extraColumns: ReadonlyArray<ExtraColumn>;
} {
  const numbers = new Map<string, Float64Array>();
  const texts = new Map<string, ReadonlyArray<string | null>>();
  for (const { name, kind } of TEST_COLUMNS) {
    const cells = rows.map(
      (row): ColumnValue =>
        (row as unknown as Record<string, ColumnValue | undefined>)[name] ?? null,
    );
    store(name, kind === "number" || kind === "integer", cells, numbers, texts);
  }
  const names = new Set<string>();
  for (const row of rows) for (const name of Object.keys(row.extra ?? {})) names.add(name);
  const extraColumns: ExtraColumn[] = [];
  for (const name of names) {
    const cells = rows.map((row): ColumnValue => row.extra?.[name] ?? null);
    const numeric =
      cells.every((cell) => cell === null || typeof cell === "number") &&
      cells.some((cell) => cell !== null);
    extraColumns.push({ name, kind: numeric ? "number" : "text" });
    store(
      name,
      numeric,
      numeric ? cells : cells.map((cell) => (cell === null ? null : String(cell))),
      numbers,
      texts,
    );
  }
  return { columns: { numbers, texts }, extraColumns };
}
