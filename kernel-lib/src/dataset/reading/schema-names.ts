import { plainName, splitColumnName, unitDimension } from "../../units";
import type { Column } from "../schema/column";

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

/** The schema's column of that name, in whatever unit; null for none. */
export function columnNamed(typed: string, schema: ReadonlyArray<Column>): Column | null {
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
