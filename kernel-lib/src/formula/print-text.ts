import type { BinaryOperator, Expression } from "./expression";
import { symbolText } from "./symbol-names";

const STRENGTH: Readonly<Record<BinaryOperator, number>> = {
  "||": 1,
  "&&": 2,
  "==": 3,
  "!=": 3,
  "<": 4,
  "<=": 4,
  ">": 4,
  ">=": 4,
  "+": 5,
  "-": 5,
  "*": 6,
  "/": 6,
  "^": 8,
};
const WORD: Readonly<Partial<Record<BinaryOperator, string>>> = {
  "||": " or ",
  "&&": " and ",
  "==": " = ",
  "!=": " ≠ ",
  "<=": " ≤ ",
  ">=": " ≥ ",
  "<": " < ",
  ">": " > ",
  "*": " × ",
  "/": " / ",
  "+": " + ",
  "-": " − ",
  "^": "^",
};

/** How tightly a binary operator binds; larger binds tighter. */
export function bindingStrength(operator: BinaryOperator): number {
  return STRENGTH[operator];
}

/**
 * Writes an expression as one line of plain text, with `show` deciding how each symbol appears (its
 * name or its value).
 * @example toText(parseFormula("k_c * sqrt(f_c) * h_ef^1.5")) // "k_c × √f'c × h_ef^1.5"
 */
export function toText(
  expression: Expression,
  show: (name: string) => string = symbolText,
  outer: number = 0,
): string {
  switch (expression.kind) {
    case "number":
      return String(expression.value);
    case "symbol":
      return show(expression.name);
    case "unary": {
      const text = `${expression.operator === "!" ? "not " : "−"}${toText(expression.operand, show, 7)}`;
      return outer > 5 ? `(${text})` : text;
    }
    case "binary": {
      const strength = STRENGTH[expression.operator];
      // A quotient after a product keeps its brackets: read from left to right, the line is then the
      // calculation that is made, to the last bit.
      const quotient = expression.right.kind === "binary" && expression.right.operator === "/";
      const rightFirst =
        expression.operator === "-" || expression.operator === "/" || quotient
          ? strength + 1
          : strength;
      const text = `${toText(expression.left, show, expression.operator === "^" ? strength + 1 : strength)}${WORD[expression.operator] ?? ""}${toText(expression.right, show, rightFirst)}`;
      return strength < outer ? `(${text})` : text;
    }
    case "call": {
      const args = expression.args.map((argument) => toText(argument, show));
      if (expression.name === "if") return `(${args[1]} if ${args[0]}, else ${args[2]})`;
      if (expression.name === "sqrt") {
        const inner = expression.args[0];
        return inner && (inner.kind === "symbol" || inner.kind === "number")
          ? `√${args[0]}`
          : `√(${args[0]})`;
      }
      return `${expression.name}(${args.join("; ")})`;
    }
  }
}
