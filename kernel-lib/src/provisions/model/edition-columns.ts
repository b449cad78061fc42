import type { ColumnProgram, Expression } from "../../formula";
import type { InputColumn } from "./provision-symbols";

/** Columns in the edition's units. Symbols that come from the same numbers (a bond stress used for both states) share one. */
export class EditionColumns {
  /**
   * @param inSi a symbol's column in N, mm, MPa
   * @param sizeOf the size of the edition's unit for a symbol
   */
  constructor(
    readonly inSi: (name: string) => InputColumn,
    readonly sizeOf: (name: string) => number,
  ) {}

  /** A column as the formulas are compiled for: its one value in the edition's units, or that it varies. */
  column(name: string): InputColumn {
    const { values, hasMissing } = this.inSi(name);
    return { values: typeof values === "number" ? values / this.sizeOf(name) : values, hasMissing };
  }

  /**
   * The columns in N, mm, MPa that symbols come from, and each symbol as a formula over them: converted by the division that
   * a single row gets, since a product with the reciprocal has other last bits.
   */
  sources(symbols: readonly string[]): { names: string[]; from: Float64Array[]; sources: ColumnProgram["lines"] } {
    const from: Float64Array[] = [];
    const sources = [...new Set(symbols)].map((name): ColumnProgram["lines"][number] => {
      const values = this.#varying(name);
      const k = from.includes(values) ? from.indexOf(values) : from.push(values) - 1;
      const column: Expression = { kind: "symbol", name: `column ${k}` };
      return { name, value: { kind: "binary", operator: "/", left: column, right: { kind: "number", value: this.sizeOf(name) } } };
    });
    return { names: from.map((_, k) => `column ${k}`), from, sources };
  }

  #varying(name: string): Float64Array {
    const { values } = this.inSi(name);
    if (typeof values === "number") throw new Error(`${name} is the same in every row and has no column.`);
    return values;
  }
}
