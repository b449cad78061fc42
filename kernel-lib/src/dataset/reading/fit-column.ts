import { canonicalUnit, splitColumnName, unitConversion, unitDimension } from "../../units";
import type { Column } from "../schema/column";
import { shortened } from "../diagnostics";
import { columnNamed } from "./schema-names";

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

/**
 * The schema's column that a name and its units cell mean, with the factor of its unit, or what is
 * wrong with it.
 */
export function fitColumn(typed: string, unitCell: string, schema: ReadonlyArray<Column>): Fit {
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
