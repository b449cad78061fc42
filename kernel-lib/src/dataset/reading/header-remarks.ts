import { diagnostic, shortened, type Diagnostic } from "../diagnostics";
import type { HeaderFinding } from "./find-header";

/**
 * What a reader is told of where the column names were read; `lookedFor` where no row was stated.
 */
export function headerRemarks(
  { sample, headerAt, header, headerRows }: HeaderFinding,
  file: string,
  lookedFor: boolean,
): Diagnostic[] {
  const remarks: Diagnostic[] = [];
  if (headerRows === 2)
    remarks.push(
      diagnostic(
        "information",
        "header-in-two-rows",
        `${file}: rows ${String(headerAt + 1)} and ${String(headerAt + 2)} were read together as the column names ("${shortened(header.find((name) => name.includes(" ")) ?? "")}" and so on; say dialect.headerRows in datapackage.json if one row is meant)`,
        { file, row: headerAt + 1, expected: "names in one row" },
      ),
    );
  const above = sample
    .slice(0, headerAt)
    .filter((cells) => cells.some((cell) => cell.trim() !== "")).length;
  if (above > 0 && lookedFor)
    remarks.push(
      diagnostic(
        "information",
        "rows-above-header",
        `${file}: the column names were read from row ${String(headerAt + 1)}; ${String(above)} ${above === 1 ? "row" : "rows"} above it ${above === 1 ? "was" : "were"} left out (say dialect.headerRows in datapackage.json if another row is meant)`,
        { file, row: headerAt + 1, expected: "a header with the names of the data contract" },
      ),
    );
  return remarks;
}
