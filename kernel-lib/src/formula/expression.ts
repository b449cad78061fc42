/**
 * The small formula language in which every provision is written, once.
 *
 * One parsed expression serves the fast column evaluation, the traced hand calculation, the printed
 * equation and the live spreadsheet cell, so there is never a second copy of an equation that could
 * differ from the first.
 */
export type Expression =
  /**
   * `computed`: folded from symbols whose values were known, rather than written in the formula.
   */
  | { readonly kind: "number"; readonly value: number; readonly computed?: true }
  | { readonly kind: "symbol"; readonly name: string }
  | { readonly kind: "unary"; readonly operator: UnaryOperator; readonly operand: Expression }
  | {
      readonly kind: "binary";
      readonly operator: BinaryOperator;
      readonly left: Expression;
      readonly right: Expression;
    }
  | { readonly kind: "call"; readonly name: FunctionName; readonly args: readonly Expression[] };

export type UnaryOperator = "-" | "!";
export type BinaryOperator =
  "+" | "-" | "*" | "/" | "^" | "<" | "<=" | ">" | ">=" | "==" | "!=" | "&&" | "||";

/** Functions of the language with the number of arguments each takes (Infinity: one or more). */
export const FUNCTIONS = {
  sqrt: 1,
  exp: 1,
  ln: 1,
  abs: 1,
  sin: 1,
  cos: 1,
  min: Infinity,
  max: Infinity,
  /** if(condition, value when it holds, value otherwise) */
  if: 3,
} as const;

export type FunctionName = keyof typeof FUNCTIONS;

/** Every operand of an expression, left to right. */
export function operands(expression: Expression): readonly Expression[] {
  switch (expression.kind) {
    case "number":
    case "symbol":
      return [];
    case "unary":
      return [expression.operand];
    case "binary":
      return [expression.left, expression.right];
    case "call":
      return expression.args;
  }
}

/**
 * The same expression with each operand replaced by what `of` makes of it; a number or a symbol has
 * none.
 */
export function mapOperands(
  expression: Expression,
  of: (operand: Expression) => Expression,
): Expression {
  switch (expression.kind) {
    case "number":
    case "symbol":
      return expression;
    case "unary":
      return { ...expression, operand: of(expression.operand) };
    case "binary":
      return { ...expression, left: of(expression.left), right: of(expression.right) };
    case "call":
      return { ...expression, args: expression.args.map(of) };
  }
}

/** The names of all symbols an expression reads, each once, in order of appearance. */
export function symbolsOf(expression: Expression, found: Set<string> = new Set()): Set<string> {
  if (expression.kind === "symbol") found.add(expression.name);
  for (const operand of operands(expression)) symbolsOf(operand, found);
  return found;
}
