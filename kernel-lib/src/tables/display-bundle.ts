import { type CellValue, isMissing, type TableColumn } from "./column";
import { toNotebookHtml } from "./notebook-html";
import type { KeyedTable } from "./table-content";
import { toMarkdown } from "./to-markdown";
import { toText } from "./to-text";

/** Media type under which a notebook keeps a table as data, for comparing runs number by number. */
export const tableMediaType = "application/vnd.code-comparison.table+json";

export interface TableData {
  readonly columns: readonly TableColumn[];
  readonly rows: readonly Readonly<Record<string, CellValue>>[];
  readonly key: readonly string[];
}

export interface DisplayBundle {
  readonly "text/html": string;
  readonly "text/plain": string;
  readonly "text/markdown": string;
  readonly [tableMediaType]: TableData;
}

/** A table in every form that a notebook front end or a reviewer may want. */
export function displayBundle(table: KeyedTable): DisplayBundle {
  const rows = table.rows.map((row) =>
    Object.fromEntries(
      Object.entries(row).map(([key, value]) => [key, isMissing(value) ? null : value]),
    ),
  );
  return {
    "text/html": toNotebookHtml(table),
    "text/plain": toText(table),
    "text/markdown": toMarkdown(table),
    [tableMediaType]: { columns: table.columns, rows, key: table.rowKey },
  };
}
