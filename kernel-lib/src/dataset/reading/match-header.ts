import {
  canonicalUnit,
  plainName,
  splitColumnName,
  unitConversion,
  unitDimension,
} from "../../units";
import type { Column } from "../schema/column";
import { diagnostic, shortened, type Diagnostic } from "../diagnostics";
import { likelyColumn } from "./likely-column";

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

/** How many cells of a row are names of the schema, in whatever unit. */
export function knownNames(cells: ReadonlyArray<string>, schema: ReadonlyArray<Column>): number {
  return new Set(
    cells
      .map((cell) =>
        cell.length > 200 || !/^\s*\p{L}/u.test(cell) ? null : columnNamed(cell.trim(), schema),
      )
      .filter((column) => column !== null),
  ).size;
}

function columnNamed(typed: string, schema: ReadonlyArray<Column>): Column | null {
  const exact =
    schema.find(({ name }) => name === typed) ?? namesOf(schema).byPlainName.get(plainName(typed));
  if (exact !== undefined) return exact;
  const parts = splitColumnName(typed);
  return (
    schema.find((candidate) =>
      sameQuantity(candidate, namesOf(schema), parts.quantity, parts.unit),
    ) ?? null
  );
}

interface Fit {
  readonly column: Column | null;
  readonly factor: number;
  readonly offset?: number;
  readonly unit: string | null;
  readonly problem: {
    readonly rule: string;
    readonly message: string;
    readonly expected: string;
  } | null;
}

function fitColumn(typed: string, unitCell: string, schema: ReadonlyArray<Column>): Fit {
  const column = columnNamed(typed, schema);
  if (column === null || column.unit === null)
    return { column, factor: 1, unit: null, problem: null };

  const named = column.name === typed ? column.unit : splitColumnName(typed).unit;
  const below = unitCell === "" ? null : canonicalUnit(unitCell);
  const unit = named ?? below;
  if (unit === null) {
    return {
      column: null,
      factor: 1,
      unit: null,
      problem: {
        rule: "no-unit",
        message: `the column "${shortened(typed)}" names no unit, expected ${column.name} or a units row below the header; the column is left out`,
        expected: column.name,
      },
    };
  }
  if (
    (unitCell !== "" && below === null) ||
    (named !== null && below !== null && named !== below) ||
    unitDimension(unit) !== unitDimension(column.unit)
  ) {
    return {
      column: null,
      factor: 1,
      unit: null,
      problem: {
        rule: "unit-conflict",
        message: `the column "${shortened(typed)}" with the unit "${shortened(unitCell === "" ? unit : unitCell)}" cannot be read as ${column.name}, expected a unit of ${unitDimension(column.unit) ?? "the same kind"}; the column is left out`,
        expected: column.unit,
      },
    };
  }
  const { factor, offset } = unitConversion(unit, column.unit);
  return {
    column,
    factor,
    ...(offset === 0 ? {} : { offset }),
    unit: factor === 1 ? null : named === null ? unitCell : unit,
    problem: null,
  };
}

interface SchemaNames {
  readonly byPlainName: ReadonlyMap<string, Column>;
  readonly quantityOf: ReadonlyMap<Column, string>;
}

const SCHEMA_NAMES = new WeakMap<ReadonlyArray<Column>, SchemaNames>();

function namesOf(schema: ReadonlyArray<Column>): SchemaNames {
  const known = SCHEMA_NAMES.get(schema);
  if (known !== undefined) return known;
  const names = {
    byPlainName: new Map(schema.map((column) => [plainName(column.name), column])),
    quantityOf: new Map(schema.map((column) => [column, splitColumnName(column.name).quantity])),
  };
  SCHEMA_NAMES.set(schema, names);
  return names;
}

function sameQuantity(
  column: Column,
  names: SchemaNames,
  quantity: string,
  unit: string | null,
): boolean {
  if (column.unit === null || names.quantityOf.get(column) !== quantity) return false;
  return unit === null || unitDimension(unit) === unitDimension(column.unit);
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
