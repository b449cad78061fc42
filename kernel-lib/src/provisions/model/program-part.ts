import type { Expression, ProgramPart } from "../../formula";
import type { LoopPlan } from "./loop-plan";
import { either, NEVER } from "./missing";

/**
 * A plan as part of a program over columns; its outputs are capacity (N) and flags.
 * @param force the size of the edition's force unit, N
 */
export function programPart({ first, lines, flags, withholds, capacity }: LoopPlan, force: number): ProgramPart {
  const withheld = flags.filter(({ bit }) => (withholds & bit) !== 0).map(({ when }) => when).reduce(either, NEVER);
  const stated = choice(withheld, number(NaN), force === 1 ? capacity : { kind: "binary", operator: "*", left: capacity, right: number(force) });
  const marked = flags.map(({ bit, when }) => choice(when, number(bit), number(0))).reduce<Expression>((left, right) => ({ kind: "binary", operator: "+", left, right }), number(0));
  if (first.length === 0) return { lines, outputs: [{ kind: "number", value: stated }, { kind: "integer", value: marked }] };
  const [head, ...rest] = first.map(({ holds }) => holds) as [Expression, ...Expression[]];
  const when = rest.reduce<Expression>((left, right) => ({ kind: "binary", operator: "&&", left, right }), head);
  // A row that is withheld at first has the bit of that limit alone.
  const firstFailing = (otherwise: Expression): Expression => first.reduceRight((inner, { bit, holds }) => choice(holds, inner, number(bit)), otherwise);
  return {
    lines,
    when,
    outputs: [
      { kind: "number", value: choice(when, stated, number(NaN)), otherwise: number(NaN) },
      { kind: "integer", value: firstFailing(marked), otherwise: firstFailing(number(0)) },
    ],
  };
}

function number(value: number): Expression {
  return { kind: "number", value, computed: true };
}

function choice(condition: Expression, yes: Expression, no: Expression): Expression {
  return { kind: "call", name: "if", args: [condition, yes, no] };
}
