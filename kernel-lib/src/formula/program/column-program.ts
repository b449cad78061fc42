import type { Expression } from "../expression";
import { compileBlockLoop, HAS_VECTOR_LOOPS } from "./block-loop";
import { compileRowLoops } from "./row-loop";

/** A column that a program makes: numbers, or whole numbers, which must come as zeros and whose memory is not touched where all are 0. */
export interface ProgramOutput {
  readonly kind: "number" | "integer";
  readonly value: Expression;
  /** What is kept where the part's condition holds in none of the rows at hand; the value, when left out. */
  readonly otherwise?: Expression;
}

/** Formulas with names of their own and the columns they make. */
export interface ProgramPart {
  readonly lines: readonly { readonly name: string; readonly value: Expression }[];
  /** Over the shared lines: rows for which nothing of the part need be worked out are passed over. */
  readonly when?: Expression;
  readonly outputs: readonly ProgramOutput[];
}

/** Formulas over columns. `lines` are read by all parts; the names of a part are its own. */
export interface ColumnProgram {
  readonly columns: readonly string[];
  readonly lines: readonly { readonly name: string; readonly value: Expression }[];
  readonly parts: readonly ProgramPart[];
}

/** Runs a program over `n` rows; columns in the order of the program, outputs in the order of its parts. */
export type ColumnRun = (n: number, columns: readonly Float64Array[], outputs: readonly (Float64Array | Int32Array)[]) => void;

/** From so many rows on the vector loop is worth its making; below, a plain loop is done before the engine has made it fast. */
export const LONG = 20_000;

/**
 * Compiles formulas for columns of `n` rows, in the form that suits their number. Both forms are written from the same trees
 * and give the same bits.
 * @example compileColumns({ columns: ["a"], lines: [], parts: [{ lines: [], outputs: [{ kind: "number", value: parseFormula("2 * a") }] }] }, n)(n, [a], [twice])
 */
export function compileColumns(program: ColumnProgram, n: number): ColumnRun {
  return n < LONG || !HAS_VECTOR_LOOPS ? compileRowLoops(program) : compileBlockLoop(program);
}
