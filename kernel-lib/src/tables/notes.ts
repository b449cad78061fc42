import type { TableContent } from "./table-content";

/** All remarks under a table: those on single columns first, each named by its column. */
export function notesOf(table: TableContent): string[] {
  const onColumns = table.columns.flatMap((column) =>
    column.note === undefined ? [] : [`${column.title}: ${column.note}`],
  );
  return [...onColumns, ...(table.notes ?? [])];
}
