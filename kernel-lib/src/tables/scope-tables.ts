import { type Comparison, type RowAccount, valueWords } from "../comparison";
import { clauseOf } from "../provisions";
import type { TableText } from "./table-text";
import { Table } from "./table";

/**
 * What became of every row read: the rows of the table add up to the rows read.
 * @example
 * accountTable(accountOf(comparison, rejectedOnReading(data.rejected)), { id: "account", title: "Account of rows" })
 */
export function accountTable(account: RowAccount, text: TableText): Table {
  const { rejected, excluded, notJudged, pooled, judged, otherModes, read } = account;
  return new Table({
    ...text,
    rowKey: ["status", "reason"],
    columns: [
      { key: "status", title: "status", kind: "text" },
      { key: "reason", title: "reason, or mode judged and mode observed", kind: "text" },
      { key: "n", title: "rows", kind: "integer" },
    ],
    rows: [
      ...rejected.map(({ reason, n }) => ({ status: "rejected on reading", reason, n })),
      ...excluded.map(({ reason, n }) => ({ status: "excluded", reason, n })),
      ...notJudged.map(({ status, reason, n }) => ({ status: status, reason, n })),
      ...pooled.map(({ status, reason, n }) => ({ status: `pooled: ${status}`, reason, n })),
      ...judged.flatMap(({ mode, failureMode, failures, lowerBounds }) =>
        [
          {
            status: "judged",
            reason: `${valueWords(mode)}, observed ${valueWords(failureMode)}`,
            n: failures,
          },
          {
            status: "judged, lower bound only",
            reason: `${valueWords(mode)}, observed ${valueWords(failureMode)}`,
            n: lowerBounds,
          },
        ].filter(({ n }) => n > 0),
      ),
      ...(otherModes > 0
        ? [{ status: "judged", reason: "in modes not shown", n: otherModes }]
        : []),
    ],
    notes: [
      `The rows add up to the ${read.toLocaleString("en-US")} rows read.`,
      ...(text.notes ?? []),
    ],
  });
}

/** Every pair of test and provision that is not judged, with what the row has. */
export function notJudgedTable(comparison: Comparison, text: TableText): Table {
  const { tests, notJudged, prediction } = comparison;
  return new Table({
    ...text,
    rowKey: ["test_id", "provision"],
    columns: [
      { key: "test_id", title: "test", kind: "text" },
      { key: "failure_mode", title: "observed mode", kind: "text" },
      { key: "provision", title: "provision", kind: "text" },
      { key: "status", title: "status", kind: "text" },
      { key: "reason", title: "reason", kind: "text" },
      { key: "value", title: "value", kind: "text" },
    ],
    rows: notJudged.map(({ row, column, status, reason, value }) => ({
      test_id: tests.text(row, "test_id"),
      failure_mode: valueWords(tests.text(row, "failure_mode")),
      provision: column < 0 ? null : clauseOf(prediction.columns[column]?.provision.id ?? ""),
      status,
      reason,
      value: value === "" ? null : value,
    })),
  });
}
