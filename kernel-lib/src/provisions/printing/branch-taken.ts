import { evaluate, holds, type Expression } from "../../formula";

/**
 * A formula with each case distinction replaced by the case that the row takes, so that the line with numbers reads as an
 * engineer writes it: `k_c = 24 if cast in, else 17` becomes `17`. A distinction on a missing value stays as it is.
 * @param value value of any symbol in this row; NaN when missing
 * @example branchTaken(parseFormula("if(a == 1, b, c)"), () => 1) // the symbol b
 */
export function branchTaken(expression: Expression, value: (name: string) => number): Expression {
  const taken = (e: Expression): Expression => branchTaken(e, value);
  switch (expression.kind) {
    case "number":
    case "symbol":
      return expression;
    case "unary":
      return { ...expression, operand: taken(expression.operand) };
    case "binary":
      return { ...expression, left: taken(expression.left), right: taken(expression.right) };
    case "call": {
      const [condition, yes, no] = expression.args;
      if (expression.name !== "if" || !condition || !yes || !no || missesAny(condition, value)) return { ...expression, args: expression.args.map(taken) };
      return taken(holds(evaluate(condition, value)) ? yes : no);
    }
  }
}

function missesAny(expression: Expression, value: (name: string) => number): boolean {
  switch (expression.kind) {
    case "number":
      return false;
    case "symbol":
      return Number.isNaN(value(expression.name));
    case "unary":
      return missesAny(expression.operand, value);
    case "binary":
      return missesAny(expression.left, value) || missesAny(expression.right, value);
    case "call":
      return expression.args.some((argument) => missesAny(argument, value));
  }
}
