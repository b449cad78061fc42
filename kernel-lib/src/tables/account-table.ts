import { valueWords, type RowAccount } from "../comparison";
import type { TableText } from "./comparison-tables";
import { Table } from "./table";

/**
 * What became of every row read: the numbers of rows add up to the first line.
 * @example accountTable(accountOf(comparison), { id: "account-of-rows", title: "Account of rows" }).toMarkdown()
 */
export function accountTable(account: RowAccount, text: TableText): Table {
  const line = (part: string, reason: string, n: number): { part: string; reason: string; n: number } => ({ part, reason, n });
  return new Table({
    ...text, rowKey: ["part", "reason"],
    columns: [{ key: "part", title: "rows", kind: "text" }, { key: "reason", title: "reason, or mode", kind: "text" }, { key: "n", title: "n", kind: "integer" }],
    rows: [
      line("read", "all rows", account.read),
      ...account.rejected.map(({ reason, n }) => line("rejected on reading", reason, n)),
      ...account.excluded.map(({ reason, n }) => line("excluded", reason, n)),
      ...account.notJudged.map(({ status, reason, n }) => line(`not judged: ${status}`, reason, n)),
      ...account.pooled.map(({ status, reason, n }) => line(`pooled although ${status}`, reason, n)),
      ...account.judged.map(({ mode, failureMode, failures, lowerBounds }) => line("judged", `${valueWords(mode)}, observed ${valueWords(failureMode)}${lowerBounds === 0 ? "" : failures === 0 ? " (lower bounds)" : ` (${lowerBounds} lower bounds)`}`, failures + lowerBounds)),
      ...(account.otherModes > 0 ? [line("judged in modes not studied here", "other modes", account.otherModes)] : []),
    ],
    notes: [...(text.notes ?? []), "Each row counts once; the lines below the first add up to it."],
  });
}
