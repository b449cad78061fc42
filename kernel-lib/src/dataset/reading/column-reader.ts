import { expectedInColumn } from "../schema/column";
import { textsOf, wordWriter, type WordColumn } from "../table/word-column";
import { likelyWord } from "./likely-name";
import type { MatchedColumn } from "./match-header";
import { isMissingWord, readNumber, type DecimalSign } from "./number-cells";
import { numberHint, otherSign } from "./number-hints";

/** Why a cell was refused: the rule, and what was expected. */
export interface CellProblem {
  readonly rule: string;
  readonly expected: string;
  /** Sentence part after the value, e.g. "is not a number". */
  readonly fault: string;
  readonly severity: "error" | "warning";
}

/**
 * Collects one column's cells. `read` takes the trimmed cell and leaves the value pending;
 * `commit` appends it, so that a row with an error in a later cell leaves no trace.
 */
export interface ColumnReader {
  readonly matched: MatchedColumn;
  read(cell: string): CellProblem | null;
  commit(): void;
  /** The pending number, NaN where there is none. */
  readonly pendingNumber: () => number;
  /** The pending text, null where there is none. */
  readonly pendingText: () => string | null;
  /** Puts a derived number in place of a blank cell. */
  readonly derive: (value: number) => void;
  /** How many cells held a word for "missing". */
  readonly missingWords: () => number;
  numbers(): Float64Array | null;
  readonly texts: () => Array<string | null> | null;
  /** A column of categories as codes; null for any other. */
  readonly words: () => WordColumn | null;
}

/**
 * A reader for a schema column or an extra column; no more rows than `mostRows` may be committed.
 */
export function columnReader(
  matched: MatchedColumn,
  decimal: DecimalSign,
  mostRows: number,
): ColumnReader {
  const kind = matched.column?.kind ?? "text";
  return kind === "number" || kind === "integer"
    ? numberReader(matched, decimal, mostRows)
    : textReader(matched, mostRows);
}

function numberReader(
  matched: MatchedColumn,
  decimal: DecimalSign,
  mostRows: number,
): ColumnReader {
  const { column, factor, offset, unit } = matched;
  if (column === null) throw new TypeError("a number column needs a schema column: got none");
  const { minimum = -Infinity, above = -Infinity, maximum = Infinity, required, kind } = column;
  const expected = expectedInColumn(
    column,
    unit === null || offset !== undefined ? null : { unit, factor },
  );
  const inOurs = (value: number): string =>
    unit === null
      ? ""
      : `[${unit}] = ${String(Number(value.toPrecision(6)))} ${column.unit ?? ""} `;
  const cells = new Float64Array(mostRows);
  let length = 0;
  let pending = NaN;
  let missingWords = 0;
  const problem = (rule: string, fault: string): CellProblem => ({
    rule,
    fault,
    expected,
    severity: "error",
  });
  return {
    matched,
    read(cell: string): CellProblem | null {
      pending = NaN;
      if (cell === "") return required ? problem("missing-value", "is blank") : null;
      const value = readNumber(cell, decimal);
      if (value === null) {
        if (!isMissingWord(cell))
          return problem(
            "not-a-number",
            numberHint(cell) ?? otherSign(cell, decimal) ?? "is not a number",
          );
        missingWords += 1;
        return required ? problem("missing-value", "stands for a missing value") : null;
      }
      const scaled = factor === 1 ? value : value * factor;
      // 68 °F is 20 °C to the last bit.
      const converted = offset === undefined ? scaled : Number((scaled + offset).toPrecision(12));
      if (kind === "integer" && !Number.isInteger(converted))
        return problem("not-whole", `${inOurs(converted)}is not a whole number`);
      if (!(converted > above) || converted < minimum || converted > maximum)
        return problem("out-of-limits", `${inOurs(converted)}is outside the limits`);
      pending = converted;
      return null;
    },
    commit(): void {
      cells[length] = pending;
      length += 1;
    },
    pendingNumber: () => pending,
    pendingText: () => null,
    derive(value: number): void {
      pending = value;
    },
    missingWords: () => missingWords,
    numbers(): Float64Array {
      return length > 0.95 * mostRows ? cells.subarray(0, length) : cells.slice(0, length);
    },
    texts: () => null,
    words: () => null,
  };
}

function textReader(matched: MatchedColumn, mostRows: number): ColumnReader {
  const column = matched.column;
  const categories =
    column?.kind === "category"
      ? new Map((column.categories ?? []).map((word) => [word, word]))
      : null;
  const expected = column === null ? "a text" : expectedInColumn(column);
  const required = column?.required ?? false;
  const open = column?.open ?? false;
  // Few words come again and again: a byte for each row, where texts would take eight.
  const coded =
    categories !== null && !open ? wordWriter(column?.categories ?? [], mostRows) : null;
  const cells: Array<string | null> = [];
  const words = new Map<string, string>();
  let pending: string | null = null;
  let missingWords = 0;
  return {
    matched,
    read(cell: string): CellProblem | null {
      pending = null;
      if (cell === "")
        return required
          ? { rule: "missing-value", fault: "is blank", expected, severity: "error" }
          : null;
      if (categories === null) {
        // Labels repeat: one string for all of them keeps large tables small. Names of specimens do
        // not repeat.
        const known = words.get(cell);
        pending = known ?? cell;
        if (known === undefined && words.size < 2000) words.set(pending, pending);
        return null;
      }
      const word =
        categories.get(cell) ?? categories.get(cell.toLowerCase().replace(/[\s-]+/g, "_"));
      if (word !== undefined) {
        pending = word;
        return null;
      }
      if (isMissingWord(cell)) {
        missingWords += 1;
        return required
          ? {
              rule: "missing-value",
              fault: "stands for a missing value",
              expected,
              severity: "error",
            }
          : null;
      }
      pending = open ? cell : null;
      const likely = likelyWord(cell, column?.categories ?? []);
      return {
        rule: "unknown-category",
        fault: likely === null ? "is not known" : `is not known (did you mean ${likely}?)`,
        expected,
        severity: open ? "warning" : "error",
      };
    },
    commit(): void {
      if (coded === null) cells.push(pending);
      else coded.push(pending);
    },
    pendingNumber: () => NaN,
    pendingText: () => pending,
    derive: () => undefined,
    missingWords: () => missingWords,
    numbers: () => null,
    texts: () => (coded === null ? cells : textsOf(coded.column())),
    words: () => coded?.column() ?? null,
  };
}
