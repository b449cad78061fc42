import {
  evaluate,
  foldConstants,
  parseFormula,
  replaceSymbols,
  type Expression,
} from "../../formula";
import { compact, hasMissing, type Values } from "./column-values";

/**
 * One input of all rows: the same number for all, or a formula over columns of numbers. Formulas
 * run along with those of the provisions, so that no column of intermediate values need be kept.
 */
export type InputColumn = number | DerivedColumn;

export interface DerivedColumn {
  readonly columns: ReadonlyMap<string, Float64Array>;
  readonly value: Expression;
  /** Whether a row may miss the value (NaN); not whether one does. */
  readonly mayMiss: boolean;
}

/** A column of numbers as it stands. */
export function statedColumn(name: string, values: Values): InputColumn {
  const compacted = compact(values);
  return typeof compacted === "number"
    ? compacted
    : { columns: new Map([[name, compacted]]), value: { kind: "symbol", name }, mayMiss: true };
}

/** A column made of words: whether any row misses its value is known from looking. */
export function columnOfWords(name: string, values: Values): InputColumn {
  const stated = statedColumn(name, values);
  return typeof stated === "number" ? stated : { ...stated, mayMiss: hasMissing(values) };
}

/** A formula over other inputs; where all of them are numbers, the number it gives. */
export function derived(
  formula: string | Expression,
  parts: Readonly<Record<string, InputColumn>>,
  mayMiss: boolean,
): InputColumn {
  const columns = new Map<string, Float64Array>();
  const known = new Map<string, number>([["pi", Math.PI]]);
  for (const [name, part] of Object.entries(parts))
    if (typeof part === "number") known.set(name, part);
  const folded = foldConstants(
    typeof formula === "string" ? parseFormula(formula) : formula,
    known,
  );
  const value = replaceSymbols(folded, (name) => {
    const part = parts[name];
    if (part === undefined || typeof part === "number")
      throw new Error(
        `A formula of an input reads ${name}; expected one of ${Object.keys(parts).join(", ")}.`,
      );
    for (const [column, values] of part.columns) columns.set(column, values);
    return part.value;
  });
  return value.kind === "number" ? value.value : { columns, value, mayMiss };
}

/** Missing values replaced by another column's. */
export function filled(values: InputColumn, otherwise: InputColumn): InputColumn {
  return derived(
    "if(values != values, otherwise, values)",
    { values, otherwise },
    mayMiss(values) && mayMiss(otherwise),
  );
}

/** Whether a row may miss the value (NaN). */
export function mayMiss(column: InputColumn): boolean {
  return typeof column === "number" ? Number.isNaN(column) : column.mayMiss;
}

/** The value of one row. */
export function valueAt(column: InputColumn, i: number): number {
  if (typeof column === "number") return column;
  const { value, columns } = column;
  if (value.kind === "symbol") return columns.get(value.name)?.[i] ?? NaN;
  return evaluate(value, (name) => columns.get(name)?.[i] ?? NaN);
}
