import { evaluate, holds, mapOperands, symbolsOf, type Expression } from "../../formula";

/**
 * A formula with each case distinction replaced by the case that the row takes, so that the line
 * with numbers reads as an engineer writes it: `k_c = 24 if cast in, else 17` becomes `17`. A
 * distinction on a missing value stays as it is.
 * @param value value of any symbol in this row; NaN when missing
 * @example branchTaken(parseFormula("if(a == 1, b, c)"), () => 1) // the symbol b
 */
export function branchTaken(expression: Expression, value: (name: string) => number): Expression {
  const taken = (e: Expression): Expression => branchTaken(e, value);
  if (expression.kind !== "call" || expression.name !== "if") return mapOperands(expression, taken);
  const [condition, yes, no] = expression.args;
  if (
    !condition ||
    !yes ||
    !no ||
    [...symbolsOf(condition)].some((name) => Number.isNaN(value(name)))
  )
    return mapOperands(expression, taken);
  return taken(holds(evaluate(condition, value)) ? yes : no);
}
