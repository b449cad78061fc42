/** How a cell looks; each look is one entry of the style sheet. */
export type CellLook =
  | "plain"
  | "title"
  | "heading"
  | "headingRight"
  | "headingIndented"
  | "unit"
  | "section"
  | "input"
  | "wrapped"
  | "note"
  | "result"
  | "strong"
  | "integer";

/**
 * A cell: empty, text, a number, or one with a look or a formula (without "="), whose `value` is
 * what it last gave.
 */
export type Cell =
  | null
  | string
  | number
  | { readonly value: string | number | null; readonly formula?: string; readonly look?: CellLook };

/** What an input cell accepts; a program asks for another entry where it is something else. */
export interface EntryRule {
  readonly cell: string;
  /** `whole`: a whole number from 1 on, such as a number of bars. */
  readonly kind: "number" | "whole";
}

/** One sheet of a workbook. */
export interface Sheet {
  /** Shown on the tab; shortened and made unique where the format demands it. */
  readonly name: string;
  readonly rows: readonly (readonly Cell[])[];
  /** Column widths in characters. */
  readonly widths: readonly number[];
  /** Rows that stay in view. */
  readonly frozenRows?: number;
  /** Columns that stay in view. */
  readonly frozenColumns?: number;
  /** Rows of text that run over all columns (numbers from 1). */
  readonly merged?: readonly number[];
  readonly entries?: readonly EntryRule[];
}

const LONGEST_NAME = 31;

/**
 * Names that the format allows: up to 31 characters, none of `[]:*?/\`, no apostrophe at an end,
 * none twice whatever the case.
 */
export function sheetNames(wanted: readonly string[]): string[] {
  const used = new Set<string>();
  return wanted.map((name) => {
    const allowed =
      name
        .replace(/[[\]:*?/\\\u0000-\u001f]+/g, " ")
        .trim()
        .replace(/^'+|'+$/g, "") || "Sheet";
    for (let count = 1; ; count++) {
      const ending = count === 1 ? "" : ` (${count})`;
      const candidate =
        [...allowed]
          .slice(0, LONGEST_NAME - ending.length)
          .join("")
          .slice(0, LONGEST_NAME - ending.length)
          .trim() + ending;
      if (used.has(candidate.toLowerCase())) continue;
      used.add(candidate.toLowerCase());
      return candidate;
    }
  });
}

/** Address of a cell, column and row counted from 0: `addressOf(1, 4)` is "B5". */
export function addressOf(column: number, row: number): string {
  let letters = "";
  for (let n = column + 1; n > 0; n = Math.floor((n - 1) / 26))
    letters = String.fromCharCode(65 + ((n - 1) % 26)) + letters;
  return `${letters}${row + 1}`;
}

/** A cell of another sheet in a formula. */
export function addressIn(sheet: string, address: string): string {
  return `'${sheet.replaceAll("'", "''")}'!${address}`;
}
