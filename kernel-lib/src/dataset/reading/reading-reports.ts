import type { ColumnReader } from "./column-reader";
import { diagnostic, shortened, type Diagnostic } from "../diagnostics";
import { DERIVED_LOAD } from "./derive-load";

/**
 * Loads that were derived, by rule: what a reader must know before he trusts a check against the
 * same measure.
 */
export function reportDerived(
  rules: ReadonlyArray<string | null>,
  file: string,
  diagnostics: Diagnostic[],
): void {
  const counts = new Map<string, number>();
  for (const rule of rules) if (rule !== null) counts.set(rule, (counts.get(rule) ?? 0) + 1);
  for (const [rule, n] of counts) {
    diagnostics.push(
      diagnostic(
        "information",
        "derived-load",
        `${file}: the peak load of ${String(n)} ${n === 1 ? "row" : "rows"} is blank and was derived as ${rule}; such rows name peak_load_kN in derived_columns, and their load is no check of that measure`,
        { file, column: DERIVED_LOAD, expected: "the load as measured" },
      ),
    );
  }
}

/** Cells that hold a word for "no value", by column. */
export function reportMissingWords(
  columns: ReadonlyArray<ColumnReader>,
  file: string,
  diagnostics: Diagnostic[],
): void {
  for (const column of columns) {
    const count = column.missingWords();
    if (count === 0) continue;
    diagnostics.push(
      diagnostic(
        "information",
        "missing-word",
        `${file}: ${String(count)} ${count === 1 ? "cell" : "cells"} of ${shortened(column.matched.typed)} hold a word for "no value" and count as missing`,
        { file, column: column.matched.typed, expected: "a blank cell" },
      ),
    );
  }
}

/** A quotation mark without its partner: what follows it cannot be read. */
export function brokenQuotes(
  broken: { readonly row: number; readonly reason: string },
  file: string,
): Diagnostic {
  return diagnostic(
    "error",
    "broken-quotes",
    `${file} from row ${String(broken.row)} on: ${broken.reason}, expected paired quotation marks; nothing after it could be read`,
    { file, row: broken.row, expected: "paired quotation marks" },
  );
}

/** A header without a row that could be used. */
export function noRows(rejected: number, file: string): Diagnostic {
  return diagnostic(
    "error",
    "no-rows",
    `${file} has a header but no ${rejected === 0 ? "rows" : "row with a test"}, expected at least one row`,
    { file, expected: "at least one row" },
  );
}
