import { neutralText } from "./neutral-text";

type CsvCell = string | number | null;

/**
 * A CSV text with a header line, LF line ends. Texts stand as they are, so that the library reads
 * back the same: for data sets. What a command hands to a person is `neutralCsvText`.
 */
export function csvText(
  header: ReadonlyArray<string>,
  rows: Iterable<ReadonlyArray<CsvCell>>,
): string {
  const lines = [header.map(csvCell).join(",")];
  for (const row of rows) lines.push(row.map(csvCell).join(","));
  return `${lines.join("\n")}\n`;
}

/** The same with every text made harmless that a spreadsheet would run as a formula. */
export function neutralCsvText(
  header: ReadonlyArray<string>,
  rows: ReadonlyArray<ReadonlyArray<CsvCell>>,
): string {
  const neutral = (row: ReadonlyArray<CsvCell>): CsvCell[] =>
    row.map((value) => (typeof value === "string" ? neutralText(value) : value));
  return csvText(header.map(neutralText), rows.map(neutral));
}

/**
 * Writes numbers so that reading gives the same bits back, and quotes whatever needs it (RFC 4180).
 */
function csvCell(value: CsvCell): string {
  if (value === null) return "";
  if (typeof value === "number") return Number.isFinite(value) ? String(value) : "";
  return /[",;\t\r\n]/.test(value) || value !== value.trim()
    ? `"${value.replaceAll('"', '""')}"`
    : value;
}
