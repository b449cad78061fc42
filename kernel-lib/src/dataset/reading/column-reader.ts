import { expectedInColumn } from "../schema/column";
import { likelyWord } from "./likely-name";
import type { MatchedColumn } from "./match-header";
import { isMissingWord, readNumber, type DecimalSign } from "./number-cells";

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
  /** How many cells held a word for "missing". */
  readonly missingWords: () => number;
  readonly numbers: () => Float64Array | null;
  readonly texts: () => Array<string | null> | null;
}

/** A reader for a schema column or an extra column. */
export function columnReader(matched: MatchedColumn, decimal: DecimalSign, capacity: number): ColumnReader {
  const kind = matched.column?.kind ?? "text";
  return kind === "number" || kind === "integer" ? numberReader(matched, decimal, capacity) : textReader(matched);
}

function numberReader(matched: MatchedColumn, decimal: DecimalSign, capacity: number): ColumnReader {
  const { column, factor } = matched;
  if (column === null) throw new TypeError("a number column needs a schema column: got none");
  const { minimum = -Infinity, above = -Infinity, maximum = Infinity, required, kind } = column;
  const expected = expectedInColumn(column);
  let cells = new Float64Array(capacity);
  let length = 0;
  let pending = NaN;
  let missingWords = 0;
  const problem = (rule: string, fault: string): CellProblem => ({ rule, fault, expected, severity: "error" });
  return {
    matched,
    read(cell: string): CellProblem | null {
      pending = NaN;
      if (cell === "") return required ? problem("missing-value", "is blank") : null;
      const value = readNumber(cell, decimal);
      if (value === null) {
        if (!isMissingWord(cell)) return problem("not-a-number", decimal === "," ? "is not a number with decimal comma" : "is not a number");
        missingWords += 1;
        return required ? problem("missing-value", "stands for a missing value") : null;
      }
      const converted = factor === 1 ? value : value * factor;
      if (kind === "integer" && !Number.isInteger(converted)) return problem("not-whole", "is not a whole number");
      if (!(converted > above) || converted < minimum || converted > maximum) return problem("out-of-limits", "is outside the limits");
      pending = converted;
      return null;
    },
    commit(): void {
      if (length === cells.length) {
        const grown = new Float64Array(Math.max(16, length * 2));
        grown.set(cells);
        cells = grown;
      }
      cells[length] = pending;
      length += 1;
    },
    missingWords: () => missingWords,
    numbers: () => (length === cells.length ? cells : cells.slice(0, length)),
    texts: () => null,
  };
}

function textReader(matched: MatchedColumn): ColumnReader {
  const column = matched.column;
  const categories = column?.kind === "category" ? new Map((column.categories ?? []).map((word) => [word, word])) : null;
  const expected = column === null ? "a text" : expectedInColumn(column);
  const required = column?.required ?? false;
  const open = column?.open ?? false;
  const cells: Array<string | null> = [];
  const words = new Map<string, string>();
  let pending: string | null = null;
  let missingWords = 0;
  return {
    matched,
    read(cell: string): CellProblem | null {
      pending = null;
      if (cell === "") return required ? { rule: "missing-value", fault: "is blank", expected, severity: "error" } : null;
      if (categories === null) {
        // Labels repeat: one string for all of them keeps large tables small. Names of specimens do not repeat.
        const known = words.get(cell);
        if (known === undefined && words.size < 2000) words.set(cell, cell);
        pending = known ?? cell;
        return null;
      }
      const word = categories.get(cell) ?? categories.get(cell.toLowerCase().replace(/[\s-]+/g, "_"));
      if (word !== undefined) {
        pending = word;
        return null;
      }
      if (isMissingWord(cell)) {
        missingWords += 1;
        return required ? { rule: "missing-value", fault: "stands for a missing value", expected, severity: "error" } : null;
      }
      pending = open ? cell : null;
      const likely = likelyWord(cell, column?.categories ?? []);
      return { rule: "unknown-category", fault: likely === null ? "is not known" : `is not known (did you mean ${likely}?)`, expected, severity: open ? "warning" : "error" };
    },
    commit(): void {
      cells.push(pending);
    },
    missingWords: () => missingWords,
    numbers: () => null,
    texts: () => cells,
  };
}
