import { diagnostic, type Diagnostic } from "../diagnostics";
import type { Delimiter } from "./delimited-text";
import type { IntakeSetting } from "./intake-setting";

/**
 * The separator by which a line of its own kind is cut, where another one cuts the file; null for
 * none.
 */
export function otherSeparator(
  cells: ReadonlyArray<string>,
  { header, delimiter }: IntakeSetting,
): Delimiter | null {
  const filled = cells.filter((cell) => cell.trim() !== "");
  const [only = ""] = filled;
  if (filled.length !== 1 || header.length < 3) return null;
  return (
    ([",", ";", "\t"] as const).find(
      (one) => one !== delimiter && only.split(one).length > header.length / 2,
    ) ?? null
  );
}

export const SEPARATOR_NAMES: Readonly<Record<Delimiter, string>> = {
  ",": "commas",
  ";": "semicolons",
  "\t": "tabs",
};

/** A row with another number of cells than the header. */
export function raggedRow(
  file: string,
  row: number,
  has: number,
  { header, delimiter }: IntakeSetting,
  foreign: Delimiter | null,
): Diagnostic {
  const wanted = header.length;
  const expected = `${String(wanted)} cells`;
  if (foreign !== null)
    return diagnostic(
      "error",
      "ragged-row",
      `${file} row ${String(row)} is separated by ${SEPARATOR_NAMES[foreign]}, expected ${SEPARATOR_NAMES[delimiter]} as in the header`,
      { file, row, value: String(has), expected },
    );
  const why =
    has > wanted && delimiter === ","
      ? " (is there a comma inside a cell, a decimal comma say? write a point, or the cell in quotation marks)"
      : "";
  return diagnostic(
    "error",
    "ragged-row",
    `${file} row ${String(row)} has ${String(has)} cells, expected ${String(wanted)} as in the header${why}`,
    { file, row, value: String(has), expected },
  );
}
