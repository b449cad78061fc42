import { diagnostic, type Diagnostic } from "../diagnostics";

/** Blank required cells of a row that are named one by one. */
const MOST_BLANKS = 3;

/** Null for a blank line; else the reasons for which the row's number of cells is wrong. */
export function lengthFault(cells: ReadonlyArray<string>, wanted: number): string[] | null {
  if (cells.length === wanted)
    return cells.every((cell) => cell === "" || cell.trim() === "") ? null : [];
  if (cells.every((cell) => cell.trim() === "")) return null;
  if (cells.length > wanted && cells.slice(wanted).every((cell) => cell.trim() === "")) return [];
  return [`${String(cells.length)} cells where the header has ${String(wanted)}`];
}

/** Many required cells blank are one fault, a test begun or a total, not as many. */
export function gatherBlanks(
  file: string,
  row: number,
  reasons: string[],
  found: Diagnostic[],
): void {
  const blank = found.filter(({ rule, value }) => rule === "missing-value" && value === "");
  if (blank.length <= MOST_BLANKS) return;
  const names = blank.map(({ column }) => column ?? "");
  const what = `${String(names.length)} required cells are blank (${names.slice(0, 3).join(", ")}, …)`;
  found.splice(0, found.length, ...found.filter((one) => !blank.includes(one)));
  reasons.splice(
    0,
    reasons.length,
    ...reasons.filter((reason) => !names.some((name) => reason === `${name} is blank`)),
    what,
  );
  const expected = "a test with all of them filled, or no row";
  found.push(
    diagnostic(
      "error",
      "unfinished-row",
      `${file} row ${String(row)}: ${what}, expected ${expected}: a test begun, or a total?`,
      { file, row, column: names[0] ?? null, value: "", expected },
    ),
  );
}
