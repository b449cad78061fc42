import { type CellValue, type TableColumn, type TableRow } from "./column";

/** Throws where a table contradicts itself; the message names the table, the column and the row. */
export function checkColumns(
  id: string,
  columns: readonly TableColumn[],
  rowKey: readonly string[],
): void {
  if (!/^[a-z0-9]+(?:-[a-z0-9]+)*$/.test(id)) {
    throw new Error(
      `The table id "${id}" cannot be a file name. Expected lower-case letters, digits and single hyphens, like "ratios-by-size".`,
    );
  }
  const keys = new Set<string>();
  for (const { key } of columns) {
    if (keys.has(key))
      throw new Error(
        `Table "${id}" has two columns with the key "${key}". Expected each key once.`,
      );
    keys.add(key);
  }
  if (rowKey.length === 0)
    throw new Error(
      `Table "${id}" has no row key. Expected at least one column that tells the rows apart.`,
    );
  for (const key of rowKey) {
    if (!keys.has(key))
      throw new Error(
        `Table "${id}" has the row key "${key}", which is no column. Expected one of ${[...keys].join(", ")}.`,
      );
  }
}

/** Throws where a row has a key that is no column, or a cell of the wrong kind. */
export function checkRow(
  id: string,
  columns: readonly TableColumn[],
  row: TableRow,
  number: number,
): void {
  for (const key of Object.keys(row)) {
    if (!columns.some((column) => column.key === key)) {
      throw new Error(
        `Row ${number} of table "${id}" has "${key}", which is no column. Expected ${columns.map((c) => c.key).join(", ")}.`,
      );
    }
  }
  for (const column of columns) checkCell(id, column, row[column.key], number);
}

function checkCell(
  id: string,
  column: TableColumn,
  value: CellValue | undefined,
  number: number,
): void {
  if (value === null || value === undefined) return;
  const where = `Row ${number}, column "${column.key}" of table "${id}"`;
  if (column.kind === "number" || column.kind === "integer") {
    if (typeof value !== "number")
      throw new Error(`${where} is ${JSON.stringify(value)}. Expected a number or null.`);
    if (column.kind === "integer" && Number.isFinite(value) && !Number.isInteger(value)) {
      throw new Error(`${where} is ${value}. Expected a whole number or null.`);
    }
  } else if (typeof value === "number") {
    throw new Error(
      `${where} is the number ${value}. Expected text; a column of numbers has the kind "number" or "integer".`,
    );
  }
}
