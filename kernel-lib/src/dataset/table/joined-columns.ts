import { TEST_COLUMNS } from "../schema/test-columns";
import { store, type ColumnStore, type ColumnValue, type ExtraColumn } from "./column-store";

/** Extra columns of two tables; one that holds numbers in one and texts in the other holds text. */
export function joinedExtras(
  first: ReadonlyArray<ExtraColumn>,
  second: ReadonlyArray<ExtraColumn>,
): ExtraColumn[] {
  const extras = new Map(first.map((column) => [column.name, column]));
  for (const column of second) {
    const mine = extras.get(column.name);
    extras.set(
      column.name,
      mine !== undefined && mine.kind !== column.kind
        ? { name: column.name, kind: "text" }
        : column,
    );
  }
  return [...extras.values()];
}

/** The columns of two tables one below the other; `cellsOf` gives the cells of both by name. */
export function joinedColumns(
  extras: ReadonlyArray<ExtraColumn>,
  cellsOf: (name: string) => ReadonlyArray<ColumnValue>,
): ColumnStore {
  const numbers = new Map<string, Float64Array>();
  const texts = new Map<string, ReadonlyArray<string | null>>();
  const columns = [
    ...TEST_COLUMNS.map(({ name, kind }) => ({
      name,
      numeric: kind === "number" || kind === "integer",
    })),
    ...extras.map(({ name, kind }) => ({ name, numeric: kind === "number" })),
  ];
  for (const { name, numeric } of columns) {
    const cells = cellsOf(name);
    store(
      name,
      numeric,
      numeric ? cells : cells.map((cell) => (cell === null ? null : String(cell))),
      numbers,
      texts,
    );
  }
  return { numbers, texts };
}
