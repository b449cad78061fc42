import { createHash } from "node:crypto";
import { TEST_COLUMNS } from "../schema/test-columns";
import type { ExtraValue, TestRow } from "../schema/test-row";
import type { TestTable } from "../table/test-table";

/**
 * What the rows of one file held, in short: enough to say later which rows and columns changed, not
 * what they held. Each row is a digest of the whole row (8 characters) followed by two characters
 * for each of `columns`, "--" for a blank.
 */
export interface FileRowDigests {
  readonly columns: ReadonlyArray<string>;
  readonly tests: Readonly<Record<string, string>>;
}

/** Digests of the rows by the file they were read from. */
export type RowDigests = Readonly<Record<string, FileRowDigests>>;

/** What became of one cell between two digests. The values themselves are not in a digest. */
export interface CellChange {
  readonly test_id: string;
  /**
   * Null where the row differs and the short digests of all its cells agree by chance (1 in 4096
   * for each cell changed).
   */
  readonly column: string | null;
  readonly change: "another value" | "filled in" | "made blank";
}

/** What changed between two states of a data set of which one is known by its digests alone. */
export interface DigestChanges {
  readonly added: ReadonlyArray<string>;
  readonly removed: ReadonlyArray<string>;
  readonly changed: ReadonlyArray<CellChange>;
}

const WHOLE = 8;
const CELL = 2;
const BLANK = "--";
const SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_.";

/**
 * Digests of every row, by file. Equal values give equal digests on every machine, whatever the
 * order of rows or columns.
 * @example rowDigests(dataset.tests)["demo/tests.csv"]?.tests["NM-001-1"]
 */
export function rowDigests(tests: TestTable): RowDigests {
  const byFile = new Map<string, TestRow[]>();
  for (let i = 0; i < tests.length; i += 1) {
    const file = tests.source(i)?.file ?? "";
    const rows = byFile.get(file);
    if (rows === undefined) byFile.set(file, [tests.row(i)]);
    else rows.push(tests.row(i));
  }
  const names = [
    ...TEST_COLUMNS.map(({ name }) => name),
    ...tests.extraColumns.map(({ name }) => name).sort(),
  ];
  return Object.fromEntries(
    [...byFile].map(([file, rows]) => {
      const columns = names.filter(
        (name) => name !== "test_id" && rows.some((row) => cellOf(row, name) !== null),
      );
      return [
        file,
        {
          columns,
          tests: Object.fromEntries(rows.map((row) => [row.test_id, rowDigest(row, columns)])),
        },
      ];
    }),
  );
}

function rowDigest(row: TestRow, columns: ReadonlyArray<string>): string {
  const cells = columns.map((name) => cellOf(row, name));
  // Blanks take no part, so that a column added for another row changes no digest of this one.
  const whole = createHash("sha256")
    .update(
      columns
        .flatMap((name, k) =>
          cells[k] === null ? [] : [`${name}\u0000${spelled(cells[k] ?? "")}`],
        )
        .sort()
        .join("\u0001"),
    )
    .digest("base64url")
    .slice(0, WHOLE);
  return whole + cells.map((cell) => (cell === null ? BLANK : cellDigest(spelled(cell)))).join("");
}

/** 1 and "1" are different values. */
function spelled(cell: string | number): string {
  return typeof cell === "number" ? String(cell) : `"${cell}`;
}

/** Two characters (12 bits) of an FNV-1a hash of the cell. */
function cellDigest(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  hash ^= hash >>> 15;
  return (SIGNS[hash & 63] ?? "") + (SIGNS[(hash >>> 6) & 63] ?? "");
}

function cellOf(row: TestRow, name: string): ExtraValue {
  return (
    (row as unknown as Record<string, ExtraValue | undefined>)[name] ?? row.extra[name] ?? null
  );
}

/**
 * Rows added, removed and changed between two states of one file, the changed ones column by
 * column.
 */
export function digestChanges(before: FileRowDigests, after: FileRowDigests): DigestChanges {
  const known = new Map(Object.entries(before.tests));
  const columns = [...new Set([...before.columns, ...after.columns])];
  const [earlier, later] = [placesOf(before), placesOf(after)];
  const added: string[] = [];
  const changed: CellChange[] = [];
  for (const [test_id, digest] of Object.entries(after.tests)) {
    const old = known.get(test_id);
    known.delete(test_id);
    if (old === undefined) added.push(test_id);
    else if (old.slice(0, WHOLE) !== digest.slice(0, WHOLE)) {
      const found = columns.flatMap((column): CellChange[] => {
        const [a, b] = [cellAt(old, earlier.get(column)), cellAt(digest, later.get(column))];
        return a === b
          ? []
          : [
              {
                test_id,
                column,
                change: a === BLANK ? "filled in" : b === BLANK ? "made blank" : "another value",
              },
            ];
      });
      changed.push(
        ...(found.length > 0
          ? found
          : [{ test_id, column: null, change: "another value" } as const]),
      );
    }
  }
  return { added, removed: [...known.keys()], changed };
}

function placesOf({ columns }: FileRowDigests): ReadonlyMap<string, number> {
  return new Map(columns.map((column, k) => [column, k]));
}

function cellAt(digest: string, place: number | undefined): string {
  return place === undefined
    ? BLANK
    : digest.slice(WHOLE + CELL * place, WHOLE + CELL * (place + 1));
}
