import type { Diagnostic } from "../diagnostics";
import { parseTests, type TestsReading } from "../reading/read-tests";
import { csvText } from "../table/csv-text";
import type { FilledRow } from "./fill-columns";

/** The rows that a recipe filled, read as any file of tests. */
export function readFilledRows(
  header: ReadonlyArray<string>,
  rows: ReadonlyArray<FilledRow>,
): TestsReading {
  // The same reader as for any tests file, so that an imported row meets the same checks.
  const text = csvText(
    header,
    rows.map((row) => header.map((name) => row.get(name) ?? null)),
  );
  return parseTests(new TextEncoder().encode(text), "tests.csv", {
    declared: new Set(header),
    decimal: ".",
    delimiter: ",",
    headerRow: 1,
  });
}

/** Where a filled row came from; null for none. */
export function sourceOf(
  filled: FilledRow | undefined,
): { readonly file: string; readonly row: number } | null {
  return filled === undefined
    ? null
    : { file: String(filled.get("source_file")), row: Number(filled.get("source_row")) };
}

/** Findings of the reader with the places of the source in them. */
export function placedFindings(
  findings: ReadonlyArray<Diagnostic>,
  sourceAt: (row: number | null) => { readonly file: string; readonly row: number } | null,
): Diagnostic[] {
  const placed: Diagnostic[] = [];
  for (const finding of findings) {
    // The recipe says itself what it assumed.
    if (finding.rule === "assumed-strength-basis") continue;
    const at = sourceAt(finding.row);
    placed.push(
      at === null
        ? finding
        : {
            ...finding,
            ...at,
            message: finding.message.replace(
              `tests.csv row ${String(finding.row)}`,
              `${at.file} row ${String(at.row)}`,
            ),
          },
    );
  }
  return placed;
}
