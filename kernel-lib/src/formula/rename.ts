import type { Expression } from "./expression";

/** The same expression with some symbols renamed, all at once (so that two may be exchanged). */
export function renameSymbols(expression: Expression, names: Readonly<Record<string, string>>): Expression {
  switch (expression.kind) {
    case "number":
      return expression;
    case "symbol":
      return { kind: "symbol", name: names[expression.name] ?? expression.name };
    case "unary":
      return { ...expression, operand: renameSymbols(expression.operand, names) };
    case "binary":
      return { ...expression, left: renameSymbols(expression.left, names), right: renameSymbols(expression.right, names) };
    case "call":
      return { ...expression, args: expression.args.map((argument) => renameSymbols(argument, names)) };
  }
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
