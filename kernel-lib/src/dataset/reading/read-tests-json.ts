import { decodeText } from "./decode-text";
import { diagnostic, shortened, type Diagnostic } from "../checks/diagnostics";
import { parseTests, sha256, type TestsReading } from "./read-tests";
import type { ReadingOptions } from "./read-table";
import { csvText } from "../writing/write-dataset";

/**
 * Reads tests from JSON: a list of records with the columns as keys, or `{ "tests": [...] }`. Missing keys and null are blank.
 * The records meet the same checks as a CSV file; a finding's row is the record's place in the list, counted from 1, plus 1.
 */
export function parseTestsJson(bytes: Uint8Array, file: string, options: ReadingOptions = {}): TestsReading {
  const { text, diagnostics } = decodeText(bytes, file);
  const refuse = (what: string): TestsReading => {
    const empty = parseTests(new Uint8Array(), file, options);
    return { ...empty, diagnostics: [...diagnostics, diagnostic("error", "bad-json", `${file} ${what}, expected a list of records`, { file, expected: "a list of records" })] };
  };
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch {
    return refuse("is not valid JSON");
  }
  const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === "object" && value !== null && !Array.isArray(value);
  const list = isRecord(parsed) && Object.hasOwn(parsed, "tests") ? parsed["tests"] : parsed;
  if (!Array.isArray(list) || list.length === 0) return refuse("holds no records");
  const records = list as unknown[];
  const header = [...new Set(records.flatMap((record) => (isRecord(record) ? Object.keys(record) : [])))];
  if (header.length === 0) return refuse("holds no records with columns");
  const found: Diagnostic[] = [];
  const rows = records.map((record, i) => header.map((name): string | number | null => {
    const cell = isRecord(record) && Object.hasOwn(record, name) ? record[name] : null;
    if (cell === null || typeof cell === "string" || typeof cell === "number") return cell;
    if (typeof cell === "boolean") return cell ? "yes" : "no";
    found.push(diagnostic("error", "nested-value", `${file} record ${String(i + 1)}: ${shortened(name)} holds a list or record, expected a text or number`, { file, row: i + 2, column: name, expected: "a text or number" }));
    // A text that no column takes for a number or a category, so that the row is set aside.
    return "(nested value)";
  }));
  const notRecords = records.flatMap((record, i) => (isRecord(record) ? [] : [diagnostic("error", "not-a-record", `${file} record ${String(i + 1)} is no record, expected columns with values`, { file, row: i + 2, expected: "a record" })]));
  const reading = parseTests(new TextEncoder().encode(csvText(header, rows)), file, { ...options, delimiter: ",", decimal: ".", headerRow: 1 });
  return { ...reading, diagnostics: [...diagnostics, ...notRecords, ...found, ...reading.diagnostics], sha256: sha256(bytes) };
}
