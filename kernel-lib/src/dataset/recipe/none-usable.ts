import type { RejectedRow } from "./imported-table";

/** What is said where a recipe can use no row: the first reasons, and how many more. */
export function noneUsable(
  rejected: ReadonlyArray<RejectedRow>,
  rows: number,
  shown: string,
): string {
  const reasons = rejected
    .slice(0, 8)
    .map(
      ({ row, reason, file }) =>
        `\n  rejected ${file === undefined ? "" : `${file} `}row ${String(row)}: ${reason}`,
    )
    .join("");
  return `${shown}: none of its ${String(rows)} rows could be used, expected at least one${reasons}${rejected.length > 8 ? `\n  and ${String(rejected.length - 8)} more` : ""}`;
}
