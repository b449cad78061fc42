import type { Expression } from "./expression";

/** The same expression with some symbols renamed, all at once (so that two may be exchanged). */
export function renameSymbols(expression: Expression, names: Readonly<Record<string, string>>): Expression {
  return replaceSymbols(expression, (name) => ({ kind: "symbol", name: names[name] ?? name }));
}

/** The same expression with every symbol replaced by an expression. */
export function replaceSymbols(expression: Expression, replacement: (name: string) => Expression): Expression {
  const of = (e: Expression): Expression => replaceSymbols(e, replacement);
  switch (expression.kind) {
    case "number":
      return expression;
    case "symbol":
      return replacement(expression.name);
    case "unary":
      return { ...expression, operand: of(expression.operand) };
    case "binary":
      return { ...expression, left: of(expression.left), right: of(expression.right) };
    case "call":
      return { ...expression, args: expression.args.map(of) };
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
