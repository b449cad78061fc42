import type { TableColumn } from "./column";
import { columnRoom } from "./column-widths";
import type { TableContent } from "./table-content";

/** How a format measures the room that columns take side by side. */
export interface ColumnMeasure {
  readonly widthOf: (text: string) => number;
  /** Room between two columns. */
  readonly gap: number;
  /** Names of rows up to this width keep to one line; 0 where they may break. */
  readonly shortName: number;
}

/**
 * The table in pieces whose words fit side by side in `width`, each with the columns that name its
 * rows.
 */
export function columnPieces(
  table: TableContent,
  width: number,
  { widthOf, gap, shortName }: ColumnMeasure,
): TableContent[] {
  const named = table.columns
    .map(({ key }, c) => ({ c, key }))
    .filter(({ key }) => table.rowKey.includes(key))
    .map(({ c }) => c);
  const least = columnRoom(table, widthOf, Infinity).map(
    (room, c) => gap + Math.max(room.least, named.includes(c) ? Math.min(room.wish, shortName) : 0),
  );
  const sum = (columns: readonly number[]): number =>
    columns.reduce((all, c) => all + (least[c] ?? 0), -gap);
  const pieces: number[][] = [[...named]];
  for (const c of table.columns.keys()) {
    if (named.includes(c)) continue;
    const last = pieces[pieces.length - 1] ?? [];
    if (sum([...last, c]) > width && last.length > named.length) pieces.push([...named, c]);
    else last.push(c);
  }
  if (pieces.length === 1) return [table];
  return pieces.map((columns) => ({
    ...table,
    columns: columns.map((c) => table.columns[c] as TableColumn),
  }));
}
