import { evaluate, foldConstants, holds, operands, type Expression } from "../../formula";

/**
 * Whether a symbol's value is missing, as a condition; `NEVER` and `ALWAYS` where the row does not
 * matter.
 */
export type MissingOf = (name: string) => Expression;

export const NEVER: Expression = { kind: "number", value: 0, computed: true };
export const ALWAYS: Expression = { kind: "number", value: 1, computed: true };

/** The condition that the value of a symbol is missing: NaN alone differs from itself. */
export function isMissing(name: string): Expression {
  const symbol: Expression = { kind: "symbol", name };
  return { kind: "binary", operator: "!=", left: symbol, right: symbol };
}

/**
 * The condition "this value rests on a missing input". Only what is looked at counts: the branch
 * that an `if` does not take may miss its inputs, so a table value needs no bond stress and a
 * cast-in bar no adhesive.
 */
export function restsOnMissing(
  expression: Expression,
  known: ReadonlyMap<string, number>,
  missing: MissingOf,
): Expression {
  const of = (e: Expression): Expression => restsOnMissing(e, known, missing);
  switch (expression.kind) {
    case "number":
      return NEVER;
    case "symbol":
      return missing(expression.name);
    case "unary":
      return of(expression.operand);
    case "binary": {
      const { operator, left, right } = expression;
      if (operator === "&&") return either(of(left), choose(left, of(right), NEVER, known));
      if (operator === "||") return either(of(left), choose(left, NEVER, of(right), known));
      return either(of(left), of(right));
    }
    case "call": {
      const [first, second, third] = expression.args;
      if (expression.name !== "if" || !first || !second || !third)
        return expression.args.map(of).reduce(either);
      return either(of(first), choose(first, of(second), of(third), known));
    }
  }
}

/** Either of two conditions, the simpler way where one is settled or both are one. */
export function either(a: Expression, b: Expression): Expression {
  if (isAlways(a) || isAlways(b)) return ALWAYS;
  if (isNever(a) || same(a, b)) return b;
  return isNever(b) ? a : { kind: "binary", operator: "||", left: a, right: b };
}

/** Whether a condition is settled as holding in no row. */
export function isNever(condition: Expression): boolean {
  return condition.kind === "number" && !holds(condition.value);
}

function isAlways(condition: Expression): boolean {
  return condition.kind === "number" && holds(condition.value);
}

function same(a: Expression, b: Expression): boolean {
  if (a === b) return true;
  if (a.kind !== b.kind) return false;
  switch (a.kind) {
    case "number":
      return Object.is(a.value, (b as typeof a).value);
    case "symbol":
      return a.name === (b as typeof a).name;
    case "call":
      if (a.name !== (b as typeof a).name) return false;
      break;
    default:
      if (a.operator !== (b as typeof a).operator) return false;
  }
  const [of, other] = [operands(a), operands(b)];
  return (
    of.length === other.length && of.every((operand, k) => same(operand, other[k] as Expression))
  );
}

function choose(
  condition: Expression,
  yes: Expression,
  no: Expression,
  known: ReadonlyMap<string, number>,
): Expression {
  if (same(yes, no)) return yes;
  const folded = foldConstants(condition, known);
  if (folded.kind === "number") return holds(folded.value) ? yes : no;
  return { kind: "call", name: "if", args: [folded, yes, no] };
}

/**
 * The inputs that a value rests on and that are missing, by the same rule, for one row.
 *
 * @param steps formulas of the symbols that are steps
 * @param value value of any symbol in this row; NaN when missing
 */
export function missingInputs(
  expression: Expression,
  steps: ReadonlyMap<string, Expression>,
  value: (name: string) => number,
  found: Set<string> = new Set(),
): Set<string> {
  const visit = (e: Expression): void => void missingInputs(e, steps, value, found);
  const decided = (condition: Expression): boolean | null => {
    const inCondition = missingInputs(condition, steps, value);
    inCondition.forEach((name) => found.add(name));
    return inCondition.size > 0 ? null : holds(evaluate(condition, value));
  };
  switch (expression.kind) {
    case "number":
      break;
    case "symbol": {
      const formula = steps.get(expression.name);
      if (formula) visit(formula);
      else if (expression.name !== "pi" && Number.isNaN(value(expression.name)))
        found.add(expression.name);
      break;
    }
    case "unary":
      visit(expression.operand);
      break;
    case "binary": {
      const { operator, left, right } = expression;
      if (operator === "&&" || operator === "||") {
        if (decided(left) === (operator === "&&")) visit(right);
      } else [left, right].forEach(visit);
      break;
    }
    case "call": {
      const [first, second, third] = expression.args;
      if (expression.name !== "if" || !first || !second || !third) expression.args.forEach(visit);
      else {
        const taken = decided(first);
        if (taken !== null) visit(taken ? second : third);
      }
      break;
    }
  }
  return found;
}
