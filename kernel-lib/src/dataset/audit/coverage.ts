import type { ExtraValue, TestColumnName, TestRow } from "../schema/test-row";
import type { TestTable } from "../table/test-table";

type AuditColumn = TestColumnName | (string & {});

/** How many tests fall into each combination of two groups of columns. */
export interface Coverage {
  readonly rowNames: ReadonlyArray<string>;
  readonly columnNames: ReadonlyArray<string>;
  /** Number of tests, by row and column. */
  readonly counts: ReadonlyArray<ReadonlyArray<number>>;
  readonly total: number;
}

/**
 * Coverage of the tests by row and column groups, e.g. material and size against failure mode.
 * Blank values show as "(blank)".
 * @example coverage(tests, ["bar_material", "bar_size"], ["failure_mode"])
 */
export function coverage(
  tests: TestTable,
  rows: ReadonlyArray<AuditColumn>,
  columns: ReadonlyArray<AuditColumn>,
): Coverage {
  const nameOf = (row: TestRow, names: ReadonlyArray<string>): string =>
    names.map((name) => shown(cellOf(row, name))).join(" · ");
  for (const name of [...rows, ...columns])
    if (!tests.has(name))
      throw new RangeError(`no column "${name}": expected a column of the tests`);
  const records = tests.rows();
  const rowNames = [...new Set(records.map((row) => nameOf(row, rows)))].sort(natural);
  const columnNames = [...new Set(records.map((row) => nameOf(row, columns)))].sort(natural);
  const rowAt = new Map(rowNames.map((name, i) => [name, i]));
  const columnAt = new Map(columnNames.map((name, i) => [name, i]));
  const counts = rowNames.map(() => columnNames.map(() => 0));
  for (const row of records) {
    const line = counts[rowAt.get(nameOf(row, rows)) ?? -1];
    const at = columnAt.get(nameOf(row, columns));
    if (line !== undefined && at !== undefined) line[at] = (line[at] ?? 0) + 1;
  }
  return { rowNames, columnNames, counts, total: records.length };
}

/** How often a column is filled. */
export interface Filled {
  readonly column: string;
  readonly filled: number;
  readonly missing: number;
  readonly share: number;
}

/**
 * Filled and missing cells of every column, the emptiest last. Columns where blank has a meaning of
 * its own count as blank all the same.
 */
export function missingness(tests: TestTable, columns: ReadonlyArray<AuditColumn>): Filled[] {
  const rows = tests.rows();
  return columns
    .map((column) => {
      const filled = rows.filter((row) => cellOf(row, column) !== null).length;
      return {
        column,
        filled,
        missing: tests.length - filled,
        share: tests.length === 0 ? NaN : filled / tests.length,
      };
    })
    .sort((a, b) => b.filled - a.filled);
}

/** How far a column is filled, and which studies leave it blank. */
export interface FilledByStudy extends Filled {
  /** Studies with blanks, most blanks first. */
  readonly blankIn: ReadonlyArray<{
    readonly study_id: string;
    readonly missing: number;
    readonly of: number;
  }>;
}

/**
 * The same by study: a column that one study never reports is another gap than one with a few
 * blanks.
 */
export function missingnessByStudy(
  tests: TestTable,
  columns: ReadonlyArray<AuditColumn>,
): FilledByStudy[] {
  const rows = tests.rows();
  const sizes = new Map<string, number>();
  for (const { study_id } of rows) sizes.set(study_id, (sizes.get(study_id) ?? 0) + 1);
  return missingness(tests, columns).map((filled) => {
    const blanks = new Map<string, number>();
    for (const row of rows)
      if (cellOf(row, filled.column) === null)
        blanks.set(row.study_id, (blanks.get(row.study_id) ?? 0) + 1);
    return {
      ...filled,
      blankIn: [...blanks]
        .map(([study_id, missing]) => ({ study_id, missing, of: sizes.get(study_id) ?? 0 }))
        .sort((a, b) => b.missing - a.missing),
    };
  });
}

/** An excluded test with its reason and where it stands. */
export interface Exclusion {
  readonly test_id: string;
  readonly study_id: string;
  readonly reason: string;
  readonly file: string | null;
  readonly row: number | null;
}

/** Every excluded test with its reason. */
export function exclusions(tests: TestTable): Exclusion[] {
  const out = tests.excluded();
  return out.rows().map(({ test_id, study_id, excluded }, i) => ({
    test_id,
    study_id,
    reason: excluded ?? "",
    file: out.source(i)?.file ?? null,
    row: out.source(i)?.row ?? null,
  }));
}

function cellOf(row: TestRow, name: string): ExtraValue {
  if (name in row.extra) return row.extra[name] ?? null;
  return (row as unknown as Record<string, ExtraValue | undefined>)[name] ?? null;
}

function shown(value: ExtraValue): string {
  return value === null ? "(blank)" : String(value);
}

/** Numbers within names in the order of their value: 10 before 9.5 would mislead. */
function natural(a: string, b: string): number {
  return a.localeCompare(b, "en", { numeric: true });
}
