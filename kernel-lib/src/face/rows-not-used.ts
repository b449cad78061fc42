import { exclusions, type Dataset } from "../dataset";
import { count } from "./results/names";

/** A row that was read and enters no comparison. */
export interface RowNotUsed {
  readonly status: "rejected" | "excluded";
  /** File and line, as in a spreadsheet: the header is line 1. */
  readonly place: string;
  readonly reason: string;
}

/** The rows that enter no comparison: rejected on reading, then excluded by their own column. */
export function rowsNotUsed({
  tests,
  rejected,
}: Pick<Dataset, "tests" | "rejected">): RowNotUsed[] {
  return [
    ...rejected.map(({ file, row, reasons }) => ({
      status: "rejected" as const,
      place: `${file}, line ${row}`,
      reason: reasons.join("; ") || "unreadable",
    })),
    ...exclusions(tests).map(({ test_id, reason, file, row }) => ({
      status: "excluded" as const,
      place: file === null ? `test ${test_id ?? "–"}` : `${file}, line ${row ?? "–"}`,
      reason,
    })),
  ];
}

/**
 * One line for whoever opens a study: how many rows are not used, the first of each kind, and where
 * all of them are listed. Undefined where every row is used.
 */
export function rowsNotUsedLine(rows: readonly RowNotUsed[]): string | undefined {
  const parts = (["rejected", "excluded"] as const).flatMap((status) => {
    const those = rows.filter((row) => row.status === status);
    const [first] = those;
    if (first === undefined) return [];
    const which = those.length === 1 ? "" : "first ";
    return [`${count(those.length, "row")} ${status} (${which}${first.place}: ${first.reason})`];
  });
  return parts.length === 0
    ? undefined
    : `Not used: ${parts.join("; ")}. All of them: audit().table("excluded") of the study.`;
}

/** Prints that line in a notebook; elsewhere the caller reads the audit. */
export function printRowsNotUsed(data: Dataset): void {
  const inNotebook = Symbol.for("code-comparison.show") in globalThis;
  const line = inNotebook ? rowsNotUsedLine(rowsNotUsed(data)) : undefined;
  if (line !== undefined) process.stdout.write(`${line}\n`);
}
