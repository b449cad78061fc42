import { type RowAccount, valueWords } from "../comparison";
import type { TableText } from "./comparison-tables";
import { Table } from "./table";

/**
 * What became of every row read: the rows of the table add up to the rows read.
 * @example accountTable(accountOf(comparison, rejectedOnReading(data.setAside)), { id: "account", title: "Account of rows" })
 */
export function accountTable(account: RowAccount, text: TableText): Table {
  const { rejected, excluded, notJudged, pooled, judged, otherModes, read } = account;
  return new Table({
    ...text,
    rowKey: ["status", "reason"],
    columns: [{ key: "status", title: "status", kind: "text" }, { key: "reason", title: "reason, or mode judged and mode observed", kind: "text" }, { key: "n", title: "rows", kind: "integer" }],
    rows: [
      ...rejected.map(({ reason, n }) => ({ status: "rejected on reading", reason, n })),
      ...excluded.map(({ reason, n }) => ({ status: "excluded", reason, n })),
      ...notJudged.map(({ status, reason, n }) => ({ status: status, reason, n })),
      ...pooled.map(({ status, reason, n }) => ({ status: `pooled: ${status}`, reason, n })),
      ...judged.flatMap(({ mode, failureMode, failures, lowerBounds }) => [
        { status: "judged", reason: `${valueWords(mode)}, observed ${valueWords(failureMode)}`, n: failures },
        { status: "judged, lower bound only", reason: `${valueWords(mode)}, observed ${valueWords(failureMode)}`, n: lowerBounds },
      ].filter(({ n }) => n > 0)),
      ...(otherModes > 0 ? [{ status: "judged", reason: "in modes not shown here", n: otherModes }] : []),
    ],
    notes: [`The rows add up to the ${String(read)} rows read.`, ...(text.notes ?? [])],
  });
}
