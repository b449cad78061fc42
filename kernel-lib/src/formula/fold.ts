import { evaluate } from "./evaluate";
import { operands, type Expression } from "./expression";
import { POWER_FUNCTIONS } from "./print-javascript";

/**
 * Replaces the symbols whose value is known by that value and evaluates every part that has become constant.
 * Parts are evaluated with the arithmetic that would have run, and never reordered, so results keep their bits.
 */
export function foldConstants(expression: Expression, known: ReadonlyMap<string, number>): Expression {
  switch (expression.kind) {
    case "number":
      return expression;
    case "symbol": {
      const value = known.get(expression.name);
      return value === undefined ? expression : { kind: "number", value, computed: true };
    }
    case "unary":
      return settle({ ...expression, operand: foldConstants(expression.operand, known) });
    case "binary": {
      const left = foldConstants(expression.left, known);
      // A first operand that decides settles the whole, as it does when the compiled text runs.
      if (left.kind === "number" && expression.operator === "&&" && !holds(left.value)) return { kind: "number", value: 0, computed: true };
      if (left.kind === "number" && expression.operator === "||" && holds(left.value)) return { kind: "number", value: 1, computed: true };
      return settle({ ...expression, left, right: foldConstants(expression.right, known) });
    }
    case "call": {
      const args = expression.args.map((argument) => foldConstants(argument, known));
      if (expression.name === "if" && args[0]?.kind === "number") return (holds(args[0].value) ? args[1] : args[2]) as Expression;
      return settle({ ...expression, args });
    }
  }
}

function settle(expression: Expression): Expression {
  if (!operands(expression).every((operand) => operand.kind === "number")) return expression;
  return { kind: "number", value: evaluateConstant(expression), computed: true };
}

/** Whether a number counts as a condition that holds: neither zero nor missing. */
export function holds(value: number): boolean {
  return value !== 0 && !Number.isNaN(value);
}

/** Evaluates an expression without symbols. @throws Error naming a symbol that has no value. */
export function evaluateConstant(expression: Expression): number {
  return evaluate(expression, (name) => {
    throw new Error(`Symbol "${name}" has no value; expected an expression of numbers only.`);
  });
}

/**
 * Compiles generated source. Only text written by `toJavaScript` from parsed formulas, numbers and names of our own
 * reaches this place; nothing from a file or a user is ever compiled as it stands.
 */
export function compile<F>(parameters: readonly string[], body: string): F {
  const key = `${parameters.join()}\n${body}`;
  const known = compiled.get(key);
  if (known !== undefined) return known as F;
  if (compiled.size >= MOST_KEPT) compiled.clear();
  // eslint-disable-next-line @typescript-eslint/no-implied-eval -- see above: the text is generated from a checked tree
  const made = new Function(...parameters, `"use strict";\n${POWER_FUNCTIONS}\n${body}`) as F;
  compiled.set(key, made);
  return made;
}

/** The same text again gives the same function, which the engine has already made fast: a study predicts many times. */
const compiled = new Map<string, unknown>();
const MOST_KEPT = 1000;
