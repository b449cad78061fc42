import { evaluate, foldConstants, holds, toJavaScript, type Expression, type SymbolWriter } from "../../formula";

/** Whether a symbol's value is missing, as source text: `"false"`, `"true"` or a condition. */
export type MissingOf = (name: string) => string;

/**
 * Source of the condition "this value rests on a missing input". Only what is looked at counts: the branch that an `if`
 * does not take may miss its inputs, so a table value needs no bond stress and a cast-in bar no adhesive.
 */
export function missingSource(expression: Expression, known: ReadonlyMap<string, number>, missing: MissingOf, write: SymbolWriter): string {
  const source = (e: Expression): string => missingSource(e, known, missing, write);
  switch (expression.kind) {
    case "number":
      return "false";
    case "symbol":
      return missing(expression.name);
    case "unary":
      return source(expression.operand);
    case "binary": {
      const { operator, left, right } = expression;
      if (operator === "&&") return either(source(left), choose(left, source(right), "false", known, write));
      if (operator === "||") return either(source(left), choose(left, "false", source(right), known, write));
      return either(source(left), source(right));
    }
    case "call": {
      const [first, second, third] = expression.args;
      if (expression.name !== "if" || !first || !second || !third) return expression.args.map(source).reduce(either);
      return either(source(first), choose(first, source(second), source(third), known, write));
    }
  }
}

function either(a: string, b: string): string {
  if (a === "true" || b === "true") return "true";
  if (a === "false" || a === b) return b;
  return b === "false" ? a : `(${a} || ${b})`;
}

function choose(condition: Expression, yes: string, no: string, known: ReadonlyMap<string, number>, write: SymbolWriter): string {
  if (yes === no) return yes;
  const folded = foldConstants(condition, known);
  if (folded.kind === "number") return holds(folded.value) ? yes : no;
  return `(${toJavaScript(folded, write)} ? ${yes} : ${no})`;
}

/**
 * The inputs that a value rests on and that are missing, by the same rule, for one row.
 *
 * @param steps formulas of the symbols that are steps
 * @param value value of any symbol in this row; NaN when missing
 */
export function missingInputs(expression: Expression, steps: ReadonlyMap<string, Expression>, value: (name: string) => number, found: Set<string> = new Set()): Set<string> {
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
      else if (expression.name !== "pi" && Number.isNaN(value(expression.name))) found.add(expression.name);
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
