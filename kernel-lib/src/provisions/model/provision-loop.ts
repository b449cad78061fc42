import {
  compileColumnLoop,
  toFormula,
  type Expression,
  type LoopOutput,
  type NamedValue,
  type RunLoop,
} from "../../formula";
import type { DerivedColumn, InputColumn } from "../inputs/derived-column";
import type { CodeDefinition, ProvisionDefinition } from "./definition";
import { planLoop, type LoopPlan } from "./loop-plan";
import { either, isNever, NEVER } from "./missing";
import { symbolsRead } from "./provision-symbols";

/** A provision compiled for columns of a kind. */
export interface ProvisionLoop {
  /**
   * The bit of a limit that withholds every row (not this material, no edge near), which needs no
   * loop; else 0.
   */
  readonly withheldBy: number;
  /** Columns of the table that `run` takes, in order; it fills capacity (N) and flags. */
  readonly columns: readonly string[];
  readonly run: RunLoop;
  /** Whether bars of a group may act separately, in rows marked APART. */
  readonly mayPart: boolean;
}

const MOST_KEPT = 100;
const compiled = new WeakMap<ProvisionDefinition, Map<string, ProvisionLoop>>();

/**
 * The loop of one provision over the rows of a table. Searches and maps ask again and again for
 * columns of the same kind: what has been compiled is kept.
 * @param inSi a symbol's column in N, mm, MPa
 * @param sizeOf the size of the edition's unit for a symbol
 */
export function provisionLoop(
  code: CodeDefinition,
  provision: ProvisionDefinition,
  design: boolean,
  inSi: (name: string) => InputColumn,
  sizeOf: (name: string) => number,
): ProvisionLoop {
  const kept = compiled.get(provision) ?? new Map<string, ProvisionLoop>();
  compiled.set(provision, kept);
  const symbols = symbolsRead(code, provision).map(
    ({ name }) => `${name}=${kindOf(inSi(name))}/${sizeOf(name)}`,
  );
  const key = [design, code.system.inSi.force, ...symbols].join();
  const known = kept.get(key);
  if (known) return known;
  const plan = planLoop(code, provision, design, inSi, sizeOf);
  const [first] = plan.first;
  const columns = [
    ...new Set(plan.columns.flatMap((name) => [...varying(name, inSi).columns.keys()])),
  ];
  const inputs = plan.columns.map((name) =>
    inUnitsOfEdition(name, varying(name, inSi), sizeOf(name)),
  );
  const loop: ProvisionLoop = {
    withheldBy: first !== undefined && isNever(first.holds) ? first.bit : 0,
    columns,
    run: compileColumnLoop({
      columns,
      inputs,
      ...conditionOf(plan),
      lines: plan.lines,
      outputs: outputsOf(plan, code.system.inSi.force),
    }),
    mayPart: plan.mayPart,
  };
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(key, loop);
  return loop;
}

function varying(name: string, inSi: (name: string) => InputColumn): DerivedColumn {
  const column = inSi(name);
  if (typeof column === "number")
    throw new Error(`${name} is the same in every row and has no column.`);
  return column;
}

/**
 * Converted by the division that a single row gets: a product with the reciprocal has other last
 * bits.
 */
function inUnitsOfEdition(name: string, { value }: DerivedColumn, size: number): NamedValue {
  return {
    name,
    value: { kind: "binary", operator: "/", left: value, right: { kind: "number", value: size } },
  };
}

/** The limits over inputs alone, which must all hold for a row to need the steps. */
function conditionOf({ first }: LoopPlan): { readonly when?: Expression } {
  if (first.length === 0) return {};
  return {
    when: first
      .map(({ holds }) => holds)
      .reduce((left, right) => ({ kind: "binary", operator: "&&", left, right })),
  };
}

function outputsOf(
  { first, flags, withholds, capacity }: LoopPlan,
  force: number,
): readonly LoopOutput[] {
  const withheld = flags
    .filter(({ bit }) => (withholds & bit) !== 0)
    .map(({ when }) => when)
    .reduce(either, NEVER);
  const inNewtons: Expression =
    force === 1
      ? capacity
      : { kind: "binary", operator: "*", left: capacity, right: number(force) };
  const marked = flags
    .map(({ bit, when }) => choice(when, number(bit), number(0)))
    .reduce<Expression>(
      (left, right) => ({ kind: "binary", operator: "+", left, right }),
      number(0),
    );
  // A row that such a limit withholds has the bit of the first that fails, alone.
  const failing = first.reduceRight<Expression>(
    (inner, { bit, holds }) => choice(holds, inner, number(bit)),
    number(0),
  );
  const skipped = <T extends object>(otherwise: T): T | object =>
    first.length === 0 ? {} : otherwise;
  return [
    {
      kind: "number",
      value: choice(withheld, number(NaN), inNewtons),
      ...skipped({ otherwise: number(NaN) }),
    },
    { kind: "integer", value: marked, ...skipped({ otherwise: failing }) },
  ];
}

function number(value: number): Expression {
  return { kind: "number", value, computed: true };
}

function choice(condition: Expression, yes: Expression, no: Expression): Expression {
  return { kind: "call", name: "if", args: [condition, yes, no] };
}

const kinds = new WeakMap<DerivedColumn, string>();

/**
 * A number that is folded into the formulas as it is, or a formula over columns: all that a loop
 * depends on.
 */
function kindOf(column: InputColumn): string {
  if (typeof column === "number") return Object.is(column, -0) ? "-0" : String(column);
  const kind = kinds.get(column) ?? `${column.mayMiss ? "?" : ""}${toFormula(column.value)}`;
  kinds.set(column, kind);
  return kind;
}
