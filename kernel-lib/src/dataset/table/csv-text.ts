/** A CSV text with a header line, LF line ends. */
export function csvText(
  header: ReadonlyArray<string>,
  rows: Iterable<ReadonlyArray<string | number | null>>,
): string {
  const lines = [header.map(csvCell).join(",")];
  for (const row of rows) lines.push(row.map(csvCell).join(","));
  return `${lines.join("\n")}\n`;
}

/**
 * Writes numbers so that reading gives the same bits back, and quotes whatever needs it (RFC 4180).
 */
function csvCell(value: string | number | null): string {
  if (value === null) return "";
  if (typeof value === "number") return Number.isFinite(value) ? String(value) : "";
  return /[",;\t\r\n]/.test(value) || value !== value.trim()
    ? `"${value.replaceAll('"', '""')}"`
    : value;
}
