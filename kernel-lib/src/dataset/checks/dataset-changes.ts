import { diagnostic, type Diagnostic } from "../diagnostics";
import { TEST_COLUMNS } from "../schema/test-columns";
import type { ExtraValue, TestRow } from "../schema/test-row";
import type { TestTable } from "../table/test-table";
import type { DigestChanges } from "./row-digests";

/** One cell that differs between two states of a data set. */
export interface ChangedCell {
  readonly test_id: string;
  readonly column: string;
  readonly before: ExtraValue;
  readonly after: ExtraValue;
}

/** What changed between two states of a data set, row by row; rows are distinguished by test_id. */
export interface DatasetChanges {
  readonly added: ReadonlyArray<string>;
  readonly removed: ReadonlyArray<string>;
  readonly changed: ReadonlyArray<ChangedCell>;
}

/**
 * Compares two tables row by row and cell by cell. Order does not matter, and nothing counts as
 * equal but equal values.
 */
export function datasetChanges(before: TestTable, after: TestTable): DatasetChanges {
  const old = new Map(before.rows().map((row) => [row.test_id, row]));
  const added: string[] = [];
  const changed: ChangedCell[] = [];
  const columns = [...TEST_COLUMNS.map(({ name }) => name)];
  const extras = new Set([...before.extraColumns, ...after.extraColumns].map(({ name }) => name));
  for (const row of after.rows()) {
    const earlier = old.get(row.test_id);
    if (earlier === undefined) {
      added.push(row.test_id);
      continue;
    }
    old.delete(row.test_id);
    const compare = (column: string, a: ExtraValue, b: ExtraValue): void => {
      if (!Object.is(a, b)) changed.push({ test_id: row.test_id, column, before: a, after: b });
    };
    for (const column of columns) compare(column, cell(earlier, column), cell(row, column));
    for (const column of extras)
      compare(column, earlier.extra[column] ?? null, row.extra[column] ?? null);
  }
  return { added, removed: [...old.keys()], changed };
}

function cell(row: TestRow, column: string): ExtraValue {
  return (row as unknown as Record<string, ExtraValue | undefined>)[column] ?? null;
}

/**
 * A readable list of changes; "no change" when there is none. Where only digests of the rows before
 * are known, the changed columns are named.
 */
export function changesReport(
  { added, removed, changed }: DatasetChanges | DigestChanges,
  shown: number = 20,
): string {
  if (added.length + removed.length + changed.length === 0) return "no change in any row";
  const lines: string[] = [];
  const list = (title: string, items: ReadonlyArray<string>): void => {
    if (items.length === 0) return;
    lines.push(
      `${title} (${String(items.length)})`,
      ...items.slice(0, shown).map((item) => `  - ${item}`),
    );
    if (items.length > shown) lines.push(`  - and ${String(items.length - shown)} more`);
  };
  list("Rows added", added);
  list("Rows removed", removed);
  list(
    "Cells changed",
    changed.map(
      (cell) =>
        `${cell.test_id} ${cell.column ?? "a column that the short digest does not tell"}: ${"change" in cell ? cell.change : `${written(cell.before)} -> ${written(cell.after)}`}`,
    ),
  );
  return lines.join("\n");
}

function written(value: ExtraValue): string {
  return value === null ? "blank" : String(value);
}

/** Files whose SHA-256 differs from a manifest's, as findings. */
export function hashChanges(
  recorded: Readonly<Record<string, string>>,
  now: Readonly<Record<string, string>>,
): Diagnostic[] {
  const found: Diagnostic[] = [];
  for (const file of new Set([...Object.keys(recorded), ...Object.keys(now)])) {
    const [before, after] = [recorded[file], now[file]];
    if (before === after) continue;
    const what = before === undefined ? "is new" : after === undefined ? "is gone" : "has changed";
    found.push(
      diagnostic("warning", "changed-file", `${file} ${what} since the manifest was written`, {
        file,
        value: after ?? null,
        expected: before ?? "no such file",
      }),
    );
  }
  return found;
}
