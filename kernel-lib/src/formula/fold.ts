import { evaluate } from "./evaluate";
import { operands, type Expression } from "./expression";
import { POWER_FUNCTIONS } from "./print-javascript";

/**
 * Replaces the symbols whose value is known by that value and evaluates every part that has become
 * constant. Parts are evaluated with the arithmetic that would have run, and never reordered, so
 * results keep their bits.
 * @param most a value that a symbol never exceeds, where one is known (see `mostThatHold`)
 */
export function foldConstants(
  expression: Expression,
  known: ReadonlyMap<string, number>,
  most: MostOf = () => Infinity,
): Expression {
  switch (expression.kind) {
    case "number":
      return expression;
    case "symbol": {
      const value = known.get(expression.name);
      return value === undefined ? expression : { kind: "number", value, computed: true };
    }
    case "unary":
      return settle(
        { ...expression, operand: foldConstants(expression.operand, known, most) },
        most,
      );
    case "binary": {
      const left = foldConstants(expression.left, known, most);
      // A first operand that decides settles the whole, as it does when the compiled text runs.
      if (left.kind === "number" && expression.operator === "&&" && !holds(left.value))
        return { kind: "number", value: 0, computed: true };
      if (left.kind === "number" && expression.operator === "||" && holds(left.value))
        return { kind: "number", value: 1, computed: true };
      return settle(
        { ...expression, left, right: foldConstants(expression.right, known, most) },
        most,
      );
    }
    case "call": {
      const args = expression.args.map((argument) => foldConstants(argument, known, most));
      if (expression.name === "if" && args[0]?.kind === "number")
        return (holds(args[0].value) ? args[1] : args[2]) as Expression;
      return settle({ ...expression, args }, most);
    }
  }
}

/** A value that a symbol never exceeds; infinite where nothing is known. */
export type MostOf = (name: string) => number;

function settle(expression: Expression, most: MostOf): Expression {
  if (operands(expression).every((operand) => operand.kind === "number"))
    return { kind: "number", value: evaluateConstant(expression), computed: true };
  if (expression.kind === "call" && (expression.name === "min" || expression.name === "max"))
    return withoutUnlimited(expression);
  return expression.kind === "binary" && neverHolds(expression, most)
    ? { kind: "number", value: 0, computed: true }
    : expression;
}

/**
 * The least of a value and infinity is the value, whatever it is (NaN, too): far edges leave the
 * formulas.
 */
function withoutUnlimited(call: Extract<Expression, { kind: "call" }>): Expression {
  const unlimited = call.name === "min" ? Infinity : -Infinity;
  const args = call.args.filter(
    (argument) => !(argument.kind === "number" && argument.value === unlimited),
  );
  return args.length === 1
    ? (args[0] as Expression)
    : args.length === call.args.length
      ? call
      : { ...call, args };
}

/**
 * Comparisons that fail for every value: nothing is above infinity, and k conditions never count
 * more than k.
 */
function neverHolds(
  { operator, left, right }: Extract<Expression, { kind: "binary" }>,
  most: MostOf,
): boolean {
  if (operator === "<" && left.kind === "number" && left.value === Infinity) return true;
  return operator === ">=" && right.kind === "number" && right.value > mostThatHold(left, most);
}

/**
 * The largest value of a sum of conditions, each of which counts 1 or 0; infinite for anything
 * else.
 */
export function mostThatHold(expression: Expression, most: MostOf): number {
  if (expression.kind === "number") return expression.value;
  if (expression.kind === "symbol") return most(expression.name);
  if (expression.kind !== "binary") return Infinity;
  if (expression.operator === "+")
    return mostThatHold(expression.left, most) + mostThatHold(expression.right, most);
  return "<>=!".includes(expression.operator[0] ?? "") ? 1 : Infinity;
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
 * Compiles generated source. Only text written by `toJavaScript` from parsed formulas, numbers and
 * names of our own reaches this place; nothing from a file or a user is ever compiled as it stands.
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

/**
 * The same text again gives the same function, which the engine has already made fast: a study
 * predicts many times.
 */
const compiled = new Map<string, unknown>();
const MOST_KEPT = 1000;
