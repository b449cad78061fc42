import {
  foldConstants,
  mostThatHold,
  parseFormula,
  symbolsOf,
  type Expression,
} from "../../formula";
import { mayMiss, type InputColumn } from "../inputs/derived-column";
import { capacityExpression, stepsOf, symbolsRead } from "./provision-symbols";
import type { CodeDefinition, ProvisionDefinition } from "./definition";
import { ALWAYS, either, isMissing, isNever, NEVER, restsOnMissing } from "./missing";

/**
 * One provision for given columns, as formulas to be written out as a loop: what is the same in
 * every row is folded in.
 */
export interface LoopPlan {
  /**
   * The symbols whose values differ from row to row, in order of first use; in the edition's units.
   */
  readonly columns: readonly string[];
  /**
   * Limits over inputs alone that withhold a row before any step, in order; `bit` is the flag of
   * the first that fails.
   */
  readonly first: readonly { readonly bit: number; readonly holds: Expression }[];
  /** Values and conditions by name, each resting on columns and those before it. */
  readonly lines: readonly { readonly name: string; readonly value: Expression }[];
  /** Conditions that set a bit of the flags. */
  readonly flags: readonly { readonly bit: number; readonly when: Expression }[];
  /** The bits that withhold the capacity. */
  readonly withholds: number;
  /** In the edition's force unit. */
  readonly capacity: Expression;
  /** Whether a row may have to be taken apart afterwards. */
  readonly mayPart: boolean;
}

/**
 * Bit that marks a row with a missing input; bits 0 to 27 mark the limits in the order of the
 * definition.
 */
export const MISSING = 1 << 30;

/**
 * Bits that mark, until it has been taken apart, a group some of whose bars do not act together:
 * across (x) and along (y).
 */
export const APART = { x: 1 << 29, y: 1 << 28 } as const;

/**
 * Plans the loop of one provision. Columns that are the same in every row are folded into the
 * formulas, so a data set without groups or near edges pays nothing for them.
 * @param inSi a symbol's column in N, mm, MPa
 * @param sizeOf the size of the edition's unit for a symbol
 */
export function planLoop(
  code: CodeDefinition,
  provision: ProvisionDefinition,
  design: boolean,
  inSi: (name: string) => InputColumn,
  sizeOf: (name: string) => number,
): LoopPlan {
  const known = new Map<string, number>([["pi", Math.PI]]);
  const missing = new Map<string, Expression>();
  const columns: string[] = [];
  const lines: { name: string; value: Expression }[] = [];
  const lacks = (formula: Expression): Expression =>
    restsOnMissing(formula, known, (name) => missing.get(name) ?? NEVER);
  for (const { name } of symbolsRead(code, provision)) {
    const column = inSi(name);
    if (typeof column === "number") known.set(name, column / sizeOf(name));
    else columns.push(name);
    if (mayMiss(column)) missing.set(name, typeof column === "number" ? ALWAYS : isMissing(name));
  }
  // Steps that count conditions (edges nearby) never exceed a number, which settles what asks for
  // more.
  const counts = new Map<string, number>();
  const folded = (expression: Expression): Expression =>
    foldConstants(expression, known, (name) => counts.get(name) ?? Infinity);
  const limits = provision.limits.map((limit, k) => ({
    ...limit,
    bit: 1 << k,
    formula: parseFormula(limit.holds),
  }));
  // A row that a limit over its inputs alone withholds (no edge near, not this material) needs no
  // step at all.
  const inputs = new Set([...columns, ...known.keys()]);
  const first = limits
    .filter(
      ({ effect, formula }) =>
        effect === "not_applicable" &&
        [...symbolsOf(formula)].every((name) => inputs.has(name)) &&
        isNever(lacks(formula)),
    )
    .map(({ bit, formula }) => ({ bit, holds: folded(formula) }))
    .filter(({ holds }) => !(holds.kind === "number" && holds.value === 1));
  for (const step of design ? stepsOf(provision) : provision.steps) {
    const formula = parseFormula(step.formula);
    const lacking = lacks(formula);
    const compound = lacking.kind !== "number" && lacking.kind !== "symbol";
    if (compound) lines.push({ name: `lacks_${step.symbol}`, value: lacking });
    if (!isNever(lacking))
      missing.set(
        step.symbol,
        compound ? { kind: "symbol", name: `lacks_${step.symbol}` } : lacking,
      );
    const value = folded(formula);
    counts.set(
      step.symbol,
      mostThatHold(value, (name) => counts.get(name) ?? Infinity),
    );
    if (value.kind === "number") known.set(step.symbol, value.value);
    else lines.push({ name: step.symbol, value });
  }
  const capacity = capacityExpression(provision, design);
  // A limit that withholds must be known to hold; one that is only reported may go unjudged.
  const lacking = [
    capacity,
    ...limits.filter(({ effect }) => effect === "not_applicable").map(({ formula }) => formula),
  ]
    .map(lacks)
    .reduce(either);
  const judged = limits
    .map(({ bit, effect, formula }) => ({
      bit,
      effect,
      holds: folded(formula),
      unknown: lacks(formula),
    }))
    .filter(({ holds }) => isNever(holds) || holds.kind !== "number");
  const apart = (["x", "y"] as const).map((side) => ({
    bit: APART[side],
    when: folded(apartCondition(provision, inputs, side)),
  }));
  const flags = [
    { bit: MISSING, when: lacking },
    ...judged.map(({ bit, holds, unknown }) => ({ bit, when: butNot(holds, unknown) })),
    ...apart,
  ].filter(({ when }) => !isNever(when));
  const withholds = judged.reduce(
    (bits, { bit, effect }) => (effect === "not_applicable" ? bits | bit : bits),
    isNever(lacking) ? 0 : MISSING,
  );
  return {
    columns,
    first,
    lines,
    flags,
    withholds,
    capacity: folded(capacity),
    mayPart: apart.some(({ when }) => !isNever(when)),
  };
}

/** Neither the one nor the other. */
function butNot(holds: Expression, unknown: Expression): Expression {
  return isNever(unknown)
    ? { kind: "unary", operator: "!", operand: holds }
    : { kind: "unary", operator: "!", operand: either(holds, unknown) };
}

/**
 * When a group must be taken apart along one side: more than one bar, farther apart than the
 * critical spacing.
 */
function apartCondition(
  { split }: ProvisionDefinition,
  reads: ReadonlySet<string>,
  side: "x" | "y",
): Expression {
  const critical = split?.[side];
  return critical !== undefined && reads.has(`n_${side}`) && reads.has(`s_${side}`)
    ? parseFormula(`n_${side} > 1 && s_${side} > ${critical}`)
    : NEVER;
}
