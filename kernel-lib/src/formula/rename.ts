import { mapOperands, type Expression } from "./expression";

/** The same expression with some symbols renamed, all at once (so that two may be exchanged). */
export function renameSymbols(
  expression: Expression,
  names: Readonly<Record<string, string>>,
): Expression {
  return replaceSymbols(expression, (name) => ({ kind: "symbol", name: names[name] ?? name }));
}

/** The same expression with every symbol replaced by an expression. */
export function replaceSymbols(
  expression: Expression,
  replacement: (name: string) => Expression,
): Expression {
  return expression.kind === "symbol"
    ? replacement(expression.name)
    : mapOperands(expression, (operand) => replaceSymbols(operand, replacement));
}

/** Writes an expression back in the formula language; `parseFormula(toFormula(e))` equals `e`. */
export function toFormula(expression: Expression): string {
  switch (expression.kind) {
    case "number":
      return expression.value === Infinity ? "1 / 0" : String(expression.value);
    case "symbol":
      return expression.name;
    case "unary":
      return `(${expression.operator}${toFormula(expression.operand)})`;
    case "binary":
      return `(${toFormula(expression.left)} ${expression.operator} ${toFormula(expression.right)})`;
    case "call":
      return `${expression.name}(${expression.args.map(toFormula).join(", ")})`;
  }
}
