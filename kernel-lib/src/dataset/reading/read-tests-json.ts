import { decodeText } from "./decode-text";
import { diagnostic, shortened, type Diagnostic } from "../diagnostics";
import { jsonFault, repeatedNames } from "./json-faults";
import { sha256 } from "./file-bytes";
import { parseTests, type TestsReading } from "./read-tests";
import type { ReadingOptions } from "./table-reading";
import { csvText } from "../table/csv-text";

/**
 * Reads tests from JSON: a list of records with the columns as keys, or `{ "tests": [...] }`.
 * Missing keys and null are blank. The records meet the same checks as a CSV file; a finding's row
 * is the record's place in the list, counted from 1, plus 1.
 */
export function parseTestsJson(
  bytes: Uint8Array,
  file: string,
  options: ReadingOptions = {},
): TestsReading {
  const { text, diagnostics } = decodeText(bytes, file);
  const refuse = (what: string): TestsReading => {
    const empty = parseTests(new Uint8Array(), file, options);
    return {
      ...empty,
      diagnostics: [
        ...diagnostics,
        diagnostic(
          "error",
          "bad-json",
          `${file} ${what}, expected a list of records such as [{"test_id": "A-1", …}, …]`,
          { file, expected: "a list of records" },
        ),
      ],
    };
  };
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch (error) {
    return refuse(jsonFault(text, error));
  }
  const repeated = repeatedNames(text);
  if (repeated.length > 0)
    return refuse(
      `gives ${repeated
        .slice(0, 3)
        .map(
          ({ name, line }) =>
            `"${shortened(name)}" twice in one record (again on line ${String(line)})`,
        )
        .join(", ")}, so that nobody can say which counts; nothing was read`,
    );
  const isRecord = (value: unknown): value is Record<string, unknown> =>
    typeof value === "object" && value !== null && !Array.isArray(value);
  const list = isRecord(parsed) && Object.hasOwn(parsed, "tests") ? parsed["tests"] : parsed;
  if (!Array.isArray(list) || list.length === 0) return refuse(noList(parsed));
  const records = list as unknown[];
  const header = [
    ...new Set(records.flatMap((record) => (isRecord(record) ? Object.keys(record) : []))),
  ];
  if (header.length === 0) return refuse("holds no records with columns");
  const found: Diagnostic[] = [];
  const rows = records.map((record, i) =>
    header.map((name): string | number | null => {
      const cell = isRecord(record) && Object.hasOwn(record, name) ? record[name] : null;
      if (cell === null || typeof cell === "string" || typeof cell === "number") return cell;
      if (typeof cell === "boolean") return cell ? "yes" : "no";
      found.push(
        diagnostic(
          "error",
          "nested-value",
          `${file} record ${String(i + 1)} (row ${String(i + 2)}): ${shortened(name)} holds a ${Array.isArray(cell) ? "list" : "record"}, ${shortened(JSON.stringify(cell))}, expected a text or number: give each of its values a column of its own`,
          { file, row: i + 2, column: name, expected: "a text or number" },
        ),
      );
      // A text that no column takes for a number or a category, so that the row is rejected.
      return "(nested value)";
    }),
  );
  // In a table the names stand in row 1: findings count the records of a list as such a table's
  // rows.
  const counted = diagnostic(
    "information",
    "rows-of-records",
    `${file}: row 2 is the first record of the list, row 3 the second`,
    { file, expected: "records" },
  );
  const notRecords = records.flatMap((record, i) =>
    isRecord(record)
      ? []
      : [
          diagnostic(
            "error",
            "not-a-record",
            `${file} record ${String(i + 1)} is no record, expected columns with values`,
            { file, row: i + 2, expected: "a record" },
          ),
        ],
  );
  const reading = parseTests(new TextEncoder().encode(csvText(header, rows)), file, {
    ...options,
    delimiter: ",",
    decimal: ".",
    headerRow: 1,
  });
  const all = [...diagnostics, ...notRecords, ...found, ...reading.diagnostics];
  return {
    ...reading,
    diagnostics: all.some(({ row, severity }) => row !== null && severity !== "information")
      ? [...all, counted]
      : all,
    sha256: sha256(bytes),
  };
}

/** What stands in place of a list of records. */
function noList(parsed: unknown): string {
  if (
    typeof parsed !== "object" ||
    parsed === null ||
    Array.isArray(parsed) ||
    Object.keys(parsed).length === 0
  )
    return "holds no records";
  const parts = Object.entries(parsed as Record<string, unknown>);
  const list = parts.find(
    ([, value]) =>
      Array.isArray(value) && value.some((one) => typeof one === "object" && one !== null),
  );
  if (list !== undefined)
    return `holds its list of records under "${shortened(list[0])}": name that tests, with the columns of the data contract as keys (no records within records)`;
  return parts.every(([, value]) => Array.isArray(value))
    ? "holds a list for each column, not a record for each test"
    : `holds one record with ${parts
        .slice(0, 4)
        .map(([name]) => `"${shortened(name)}"`)
        .join(", ")}, no list of them`;
}
