import type { Dataset, TestTable } from "../dataset";
import type { TableText } from "./table-text";
import { Table } from "./table";

/** What became of the rows of one file, by reason. */
export interface ReadRows {
  readonly file: string;
  readonly status:
    "used" | "excluded" | "outside the condition of the study" | "rejected on reading";
  /** Null for rows that are used. */
  readonly reason: string | null;
  readonly n: number;
}

const ORDER = [
  "used",
  "excluded",
  "outside the condition of the study",
  "rejected on reading",
] as const;

/**
 * What became of every row that was read, by file: each row counts once, so that the numbers add up
 * to the rows read.
 * @param chosen the tests that the study looks at
 * @param condition why the others are not among them, in words
 * @example readRows(data, data.tests, "").filter(({ status }) => status === "excluded")
 */
export function readRows(
  { tests, rejected }: Pick<Dataset, "tests" | "rejected">,
  chosen: TestTable,
  condition: string,
): ReadRows[] {
  const inside = new Set(chosen.texts("test_id"));
  const reasons = tests.texts("excluded");
  const each: Omit<ReadRows, "n">[] = tests.texts("test_id").map((id, i) => {
    const file = tests.source(i)?.file ?? "(not from a file)";
    const reason = reasons[i] ?? null;
    if (!inside.has(id))
      return { file, status: "outside the condition of the study", reason: condition };
    return reason === null
      ? { file, status: "used", reason: null }
      : { file, status: "excluded", reason };
  });
  for (const { file, reasons: why } of rejected)
    each.push({ file, status: "rejected on reading", reason: why[0] ?? "unreadable" });
  const counts = new Map<string, ReadRows>();
  for (const one of each) {
    const key = JSON.stringify(one);
    counts.set(key, { ...one, n: (counts.get(key)?.n ?? 0) + 1 });
  }
  return [...counts.values()].sort(
    (a, b) =>
      (a.file < b.file ? -1 : a.file > b.file ? 1 : 0) ||
      ORDER.indexOf(a.status) - ORDER.indexOf(b.status) ||
      b.n - a.n,
  );
}

/** The account of the rows read as a table. */
export function readRowsTable(rows: readonly ReadRows[], text: TableText): Table {
  const total = rows.reduce((sum, { n }) => sum + n, 0);
  return new Table({
    ...text,
    rowKey: ["file", "status", "reason"],
    columns: [
      { key: "file", title: "file", kind: "text" },
      { key: "status", title: "status", kind: "text" },
      { key: "reason", title: "reason", kind: "text" },
      { key: "n", title: "rows", kind: "integer" },
    ],
    rows: rows.map((one) => ({ ...one })),
    notes: [
      ...(text.notes ?? []),
      `The rows add up to the ${total.toLocaleString("en-US")} rows read.`,
    ],
  });
}
