import { canonicalUnit } from "../../units";
import type { Column } from "../schema/column";
import { diagnostic, shortened, type Diagnostic } from "../diagnostics";
import { likelyColumn } from "./likely-column";
import { fitColumn } from "./fit-column";

/** What a column of a file is read as. */
export interface MatchedColumn {
  /** Position in the file, from 0. */
  readonly index: number;
  /** Name as typed in the file. */
  readonly typed: string;
  /** The schema's column, or null for a column that the schema does not know. */
  readonly column: Column | null;
  /** Factor from the file's unit to the schema's. */
  readonly factor: number;
  /** What is added after it: between scales of temperature. */
  readonly offset?: number;
  /** The file's unit as typed, where it is not the schema's. */
  readonly unit: string | null;
}

/** The columns of a file matched to a schema, with what had to be said about them. */
export interface MatchedHeader {
  readonly columns: ReadonlyArray<MatchedColumn>;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
  /**
   * Columns of the schema that an unknown column is likely to mean: its name as typed, and the name
   * to give it.
   */
  readonly suggested: ReadonlyMap<string, { readonly typed: string; readonly name: string }>;
}

const RESERVED_NAMES: ReadonlySet<string> = new Set(["__proto__", "constructor", "prototype"]);

/**
 * Matches a header to a schema: by exact name, by the same name in other letters, or by the same
 * quantity in another unit (in the name or in a units row). A name that fits nothing stays as an
 * extra column and is answered with the likely one.
 * @param declared names of extra columns that the data set's descriptor announces, so that they
 *   need no warning
 */
export function matchHeader(
  header: ReadonlyArray<string>,
  units: ReadonlyArray<string> | null,
  schema: ReadonlyArray<Column>,
  file: string,
  row: number,
  declared: ReadonlySet<string> = new Set(),
): MatchedHeader {
  const columns: MatchedColumn[] = [];
  const diagnostics: Diagnostic[] = [];
  const taken = new Map<string, { readonly typed: string; readonly index: number }>();
  const say = (
    severity: Diagnostic["severity"],
    rule: string,
    column: string,
    message: string,
    expected: string,
  ): void => {
    diagnostics.push(
      diagnostic(severity, rule, `${file}: ${message}`, {
        file,
        row,
        column,
        value: column,
        expected,
      }),
    );
  };

  header.forEach((cell, index) => {
    const typed = cell.trim();
    if (typed === "") return;
    const shown = shortened(typed);
    if (RESERVED_NAMES.has(typed)) {
      say(
        "error",
        "reserved-name",
        typed,
        `the column name "${shown}" is not allowed, expected another name; the column is left out`,
        "another column name",
      );
      return;
    }
    const fit = fitColumn(typed, (units?.[index] ?? "").trim(), schema);
    if (fit.problem !== null) {
      say("error", fit.problem.rule, typed, fit.problem.message, fit.problem.expected);
      return;
    }
    const name = fit.column?.name ?? typed;
    const earlier = taken.get(name);
    if (earlier !== undefined) {
      say(
        "error",
        "duplicate-column",
        typed,
        `column ${String(index + 1)} ("${shown}") holds ${name} once more (first in column ${String(earlier.index + 1)}, "${shortened(earlier.typed)}"), expected one column; the later one is left out`,
        "each column once",
      );
      return;
    }
    taken.set(name, { typed, index });
    if (fit.column !== null && fit.factor !== 1) {
      say(
        "information",
        "converted-unit",
        typed,
        `"${shown}" was converted to ${name} with the factor ${String(fit.factor)}${fit.offset === undefined ? "" : `, then ${String(fit.offset)} added`}`,
        name,
      );
    } else if (fit.column !== null && fit.column.name !== typed) {
      say("information", "renamed-column", typed, `"${shown}" was read as ${name}`, name);
    }
    columns.push({
      index,
      typed,
      column: fit.column,
      factor: fit.factor,
      unit: fit.unit,
      ...(fit.offset === undefined ? {} : { offset: fit.offset }),
    });
  });

  const unused = schema.filter(({ name }) => !taken.has(name));
  const suggested = new Map<string, { typed: string; name: string }>();
  for (const { index, typed, column } of columns) {
    if (column !== null || declared.has(typed)) continue;
    const likely = likelyColumn(typed, canonicalUnit((units?.[index] ?? "").trim() || "?"), unused);
    if (likely !== null && !suggested.has(likely.column.name))
      suggested.set(likely.column.name, { typed, name: likely.name });
    const hint =
      likely === null
        ? "expected a column of the data contract or one announced in datapackage.json"
        : `did you mean ${likely.name}?`;
    say(
      "warning",
      "unknown-column",
      typed,
      `the column "${shortened(typed)}" is not known (${hint}); it is kept as it is`,
      likely?.name ?? "a column of the data contract",
    );
  }
  return { columns, diagnostics, suggested };
}

/**
 * Whether a record below the header holds units and no data: at least one known unit, and nothing
 * that is not one.
 */
export function isUnitsRow(cells: ReadonlyArray<string>): boolean {
  let known = 0;
  for (const cell of cells) {
    const trimmed = cell.trim();
    if (trimmed === "" || trimmed === "-" || /^(text|label|category|yes\/no)$/i.test(trimmed))
      continue;
    if (/^\d/.test(trimmed) || canonicalUnit(trimmed) === null) return false;
    known += 1;
  }
  return known > 0;
}
