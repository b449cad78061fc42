import type { ColumnProgram } from "../../formula";
import type { InputColumn } from "../inputs/derived-column";

/** What a program over columns takes: columns of the table by name, and each symbol as a formula over them. */
export interface ProgramInput {
  readonly columns: ReadonlyMap<string, Float64Array>;
  readonly lines: ColumnProgram["lines"];
}

/**
 * Symbols that vary, in the edition's units: converted by the division that a single row gets, since a product with the
 * reciprocal has other last bits.
 * @param inSi a symbol's column in N, mm, MPa
 * @param sizeOf the size of the edition's unit for a symbol
 */
export function programInput(symbols: readonly string[], inSi: (name: string) => InputColumn, sizeOf: (name: string) => number): ProgramInput {
  const columns = new Map<string, Float64Array>();
  const lines = [...new Set(symbols)].map((name): ColumnProgram["lines"][number] => {
    const column = inSi(name);
    if (typeof column === "number") throw new Error(`${name} is the same in every row and has no column.`);
    for (const [stated, values] of column.columns) columns.set(stated, values);
    return { name, value: { kind: "binary", operator: "/", left: column.value, right: { kind: "number", value: sizeOf(name) } } };
  });
  return { columns, lines };
}
