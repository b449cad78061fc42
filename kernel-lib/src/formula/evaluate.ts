import type { BinaryOperator, Expression } from "./expression";

/**
 * Evaluates an expression by walking its tree: operation by operation the arithmetic of the
 * compiled text, so the bits are the same. For constants and single cells; columns are compiled.
 * @example evaluate(parseFormula("2 * a"), () => 3) // 6
 */
export function evaluate(expression: Expression, value: (name: string) => number): number {
  switch (expression.kind) {
    case "number":
      return expression.value;
    case "symbol":
      return expression.name === "pi" ? Math.PI : value(expression.name);
    case "unary": {
      const operand = evaluate(expression.operand, value);
      return expression.operator === "-" ? -operand : Number(!operand);
    }
    case "binary": {
      const { operator, right } = expression;
      const left = evaluate(expression.left, value);
      // The second operand is not looked at when the first decides, as in the compiled text.
      if (operator === "&&") return left ? Number(Boolean(evaluate(right, value))) : 0;
      if (operator === "||") return left ? 1 : Number(Boolean(evaluate(right, value)));
      if (operator === "^") return power(left, right, value);
      return OPERATION[operator](left, evaluate(right, value));
    }
    case "call": {
      if (expression.name === "if")
        return evaluate(
          (evaluate(expression.args[0] as Expression, value)
            ? expression.args[1]
            : expression.args[2]) as Expression,
          value,
        );
      const args = expression.args.map((argument) => evaluate(argument, value));
      if (expression.name === "min" || expression.name === "max")
        return args.reduce((left, right) => Math[expression.name as "min" | "max"](left, right));
      return Math[expression.name === "ln" ? "log" : expression.name](args[0] ?? NaN);
    }
  }
}

const OPERATION: Readonly<
  Record<Exclude<BinaryOperator, "&&" | "||" | "^">, (a: number, b: number) => number>
> = {
  "+": (a, b) => a + b,
  "-": (a, b) => a - b,
  "*": (a, b) => a * b,
  "/": (a, b) => a / b,
  "<": (a, b) => Number(a < b),
  "<=": (a, b) => Number(a <= b),
  ">": (a, b) => Number(a > b),
  ">=": (a, b) => Number(a >= b),
  "==": (a, b) => Number(a === b),
  "!=": (a, b) => Number(a !== b),
};

function power(base: number, exponent: Expression, value: (name: string) => number): number {
  if (exponent.kind === "number" && exponent.computed !== true) {
    if (exponent.value === 2) return base * base;
    if (exponent.value === 3) return base * base * base;
    if (exponent.value === 1.5) return base * Math.sqrt(base);
    if (exponent.value === 0.5) return Math.sqrt(base);
  }
  return Math.pow(base, evaluate(exponent, value));
}
