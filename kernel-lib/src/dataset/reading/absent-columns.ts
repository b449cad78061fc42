import { diagnostic, shortened, type Diagnostic } from "../diagnostics";
import type { Column } from "../schema/column";
import { DERIVED_LOAD, INSTEAD_OF_LOAD } from "./derive-load";
import type { MatchedHeader } from "./match-header";
import { namesInFirstColumn } from "./table-shape";

/** Required columns that a file has not, with the column that may be meant. */
export function reportAbsent(
  absent: ReadonlyArray<Column>,
  matching: MatchedHeader,
  file: string,
  row: number,
  diagnostics: Diagnostic[],
): void {
  for (const { name, meaning } of absent) {
    const likely = matching.suggested.get(name);
    diagnostics.push(
      diagnostic(
        "error",
        "missing-column",
        `${file} has no column ${name} (${meaning}), expected ${name === DERIVED_LOAD ? INSTEAD_OF_LOAD : "one"}${likely === undefined ? "" : ` (is it "${shortened(likely.typed)}"? then name that ${likely.name})`}; no row can be used without it`,
        { file, row, column: name, expected: name },
      ),
    );
  }
}

/** A table with its names in the first column, where more of them stand than in the header. */
export function reportOnItsSide(
  sample: ReadonlyArray<ReadonlyArray<string>>,
  schema: ReadonlyArray<Column>,
  matching: MatchedHeader,
  file: string,
  row: number,
  diagnostics: Diagnostic[],
): void {
  const onItsSide = namesInFirstColumn(sample, schema);
  if (onItsSide > matching.columns.filter(({ column }) => column !== null).length)
    diagnostics.unshift(
      diagnostic(
        "error",
        "table-on-its-side",
        `${file} has ${String(onItsSide)} names of the data contract in its first column, expected them in one row with a test in each row below: turn the table (paste it transposed)`,
        { file, row, expected: "names in one row" },
      ),
    );
}

/** Reasons that hold for every row of a file without these columns. */
export function standingReasons(absent: ReadonlyArray<Column>): string[] {
  return absent.length > 3
    ? [
        `${String(absent.length)} required columns are missing (${absent
          .slice(0, 3)
          .map(({ name }) => name)
          .join(", ")}, …)`,
      ]
    : absent.map(({ name }) => `no column ${name}`);
}
