import { compileColumns, LONG, toFormula, type ColumnRun } from "../../formula";
import type { InputColumn } from "../inputs/derived-column";
import type { CodeDefinition, ProvisionDefinition } from "./definition";
import { planLoop, type LoopPlan } from "./loop-plan";
import { isNever } from "./missing";
import { programInput } from "./program-input";
import { programPart } from "./program-part";
import { symbolsRead } from "./provision-symbols";

/** The provisions of a code made ready for columns of a kind. */
export interface CompiledProvisions {
  readonly plans: readonly LoopPlan[];
  /** Of each provision, the bit of a limit that withholds every row (not this material, no edge near), which needs no loop; else 0. */
  readonly withheldBy: readonly number[];
  /** Columns of the table that the run takes, in order. Its outputs are capacity (N) and flags of the provisions not withheld, in turn. */
  readonly columns: readonly string[];
  readonly run: ColumnRun;
}

const made = new Map<string, CompiledProvisions>();
const MOST_KEPT = 300;

/**
 * All provisions as one program, so that what they share is read, converted and worked out once. What has been made is kept:
 * searches and maps ask again and again for columns of the same kind.
 * @param n number of rows; long tables get another form of loop
 * @param inSi a symbol's column in N, mm, MPa
 * @param sizeOf the size of the edition's unit for a symbol
 */
export function compileProvisions(code: CodeDefinition, provisions: readonly ProvisionDefinition[], design: boolean, n: number, inSi: (name: string) => InputColumn, sizeOf: (name: string) => number): CompiledProvisions {
  const symbols = new Set(provisions.flatMap((provision) => symbolsRead(code, provision).map(({ name }) => name)));
  const kinds = [...symbols].map((name) => kindOf(inSi(name)));
  const key = [n >= LONG, design, numberOf(code.options), numberOf(code.system), ...provisions.map(numberOf), ...kinds].join();
  const known = made.get(key);
  if (known) return known;
  const plans = provisions.map((provision) => planLoop(code, provision, design, inSi, sizeOf));
  const withheldBy = plans.map(({ first: [limit] }) => (limit !== undefined && isNever(limit.holds) ? limit.bit : 0));
  const open = plans.filter((_, k) => withheldBy[k] === 0);
  const { columns, lines } = programInput(open.flatMap((plan) => plan.columns), inSi, sizeOf);
  const run = compileColumns({ columns: [...columns.keys()], lines, parts: open.map((plan) => programPart(plan, code.system.inSi.force)) }, n);
  const compiled = { plans, withheldBy, columns: [...columns.keys()], run };
  if (made.size >= MOST_KEPT) made.clear();
  made.set(key, compiled);
  return compiled;
}

/** A number folded into the formulas as it is, or a formula over columns: all that a loop hangs on. */
function kindOf(column: InputColumn): string {
  if (typeof column === "number") return Object.is(column, -0) ? "-0" : String(column);
  return `${column.mayMiss ? "?" : ""}${toFormula(column.value)}`;
}

const numbers = new WeakMap<object, number>();
let last = 0;

/** A number by which an object is known: definitions are told apart by what they are, not by their names. */
function numberOf(object: object): number {
  const number = numbers.get(object) ?? (last += 1);
  numbers.set(object, number);
  return number;
}
