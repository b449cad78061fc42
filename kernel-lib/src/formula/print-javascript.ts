import type { Expression } from "./expression";

/**
 * How a symbol is written in the generated code (a local name, or a literal when its value is
 * constant).
 */
export type SymbolWriter = (name: string) => string;

/**
 * Writes an expression as JavaScript. Only the parsed tree is written, never text from outside, so
 * the result can be compiled safely; the same text serves the column loop and the single traced
 * row, hence identical bits.
 */
export function toJavaScript(expression: Expression, write: SymbolWriter): string {
  const js = (e: Expression): string => toJavaScript(e, write);
  switch (expression.kind) {
    case "number":
      return numberLiteral(expression.value);
    case "symbol":
      return write(expression.name);
    case "unary":
      return `(${expression.operator}${js(expression.operand)})`;
    case "binary":
      return binary(expression, js);
    case "call":
      return call(expression.name, expression.args.map(js));
  }
}

function binary(
  { operator, left, right }: Extract<Expression, { kind: "binary" }>,
  js: (e: Expression) => string,
): string {
  if (operator === "^") return power(left, right, js);
  // "a && b" of two numbers is a condition (1 or 0), not the value of b.
  if (operator === "&&" || operator === "||")
    return `(${condition(left, js)} ${operator} ${condition(right, js)})`;
  // Conditions that are counted are written as numbers, which adds many times faster than truth
  // values do.
  const counted = (e: Expression): string =>
    operator === "+" && isCondition(e) ? `(${js(e)} ? 1 : 0)` : js(e);
  return `(${counted(left)} ${operator} ${counted(right)})`;
}

function isCondition(expression: Expression): boolean {
  return (
    (expression.kind === "unary" && expression.operator === "!") ||
    (expression.kind === "binary" && !"+-*/^".includes(expression.operator))
  );
}

function condition(expression: Expression, js: (e: Expression) => string): string {
  return isCondition(expression) ? js(expression) : `!!${js(expression)}`;
}

/** A number as source text; negative and non-finite values are bracketed or named. */
export function numberLiteral(value: number): string {
  if (Number.isNaN(value)) return "NaN";
  if (value === Infinity) return "Infinity";
  if (Object.is(value, -0)) return "(-0)";
  return value < 0 ? `(${value})` : String(value);
}

function call(name: string, args: readonly string[]): string {
  switch (name) {
    case "if":
      return `(${args[0]} ? ${args[1]} : ${args[2]})`;
    case "min":
    case "max":
      // One argument needs no call; a chain of two-argument calls is what engines turn into single
      // instructions.
      return args.reduce((left, right) => `Math.${name}(${left}, ${right})`);
    case "ln":
      return `Math.log(${args[0]})`;
    default:
      return `Math.${name}(${args[0]})`;
  }
}

/**
 * Powers 2, 3, 1.5 and 0.5 as products and roots: many times faster than a general power. Whether
 * that is done depends on the formula as written alone, never on what has been folded, so the column
 * loop and the single row keep the same bits.
 */
function power(base: Expression, exponent: Expression, js: (e: Expression) => string): string {
  const text = js(base);
  const name =
    exponent.kind === "number" && exponent.computed !== true
      ? WRITTEN_POWER[exponent.value]
      : undefined;
  return name === undefined ? `Math.pow(${text}, ${js(exponent)})` : `${name}(${text})`;
}

const WRITTEN_POWER: Readonly<Record<number, string>> = {
  2: "square",
  3: "cube",
  1.5: "sqrtCube",
  0.5: "Math.sqrt",
};

/** Declarations that text from `toJavaScript` needs in front of it. */
export const POWER_FUNCTIONS =
  "const square = (x) => x * x, cube = (x) => x * x * x, sqrtCube = (x) => x * Math.sqrt(x);";
