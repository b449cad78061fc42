import type { Expression } from "./expression";

/** How a symbol is written in the generated code (a local name, or a literal when its value is constant). */
export type SymbolWriter = (name: string) => string;

/**
 * Writes an expression as JavaScript. Only the parsed tree is written, never text from outside, so the result can be
 * compiled safely; the same text serves the column loop and the single traced row, hence identical bits.
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
      return expression.operator === "^" ? power(expression.left, expression.right, js) : `(${js(expression.left)} ${expression.operator} ${js(expression.right)})`;
    case "call":
      return call(expression.name, expression.args.map(js));
  }
}

/** A number as source text; negative and non-finite values are bracketed or named. */
export function numberLiteral(value: number): string {
  if (Number.isNaN(value)) return "NaN";
  if (value === Infinity) return "Infinity";
  return value < 0 || Object.is(value, -0) ? `(${value})` : String(value);
}

function call(name: string, args: readonly string[]): string {
  switch (name) {
    case "if":
      return `(${args[0]} ? ${args[1]} : ${args[2]})`;
    case "min":
    case "max":
      // One argument needs no call; a chain of two-argument calls is what engines turn into single instructions.
      return args.reduce((left, right) => `Math.${name}(${left}, ${right})`);
    case "ln":
      return `Math.log(${args[0]})`;
    default:
      return `Math.${name}(${args[0]})`;
  }
}

function power(base: Expression, exponent: Expression, js: (e: Expression) => string): string {
  const plain = base.kind === "symbol" || base.kind === "number";
  const text = js(base);
  if (exponent.kind === "number" && plain) {
    // Square roots and products are exact to the last bit or nearly so, and many times faster than a general power.
    if (exponent.value === 2) return `(${text} * ${text})`;
    if (exponent.value === 3) return `(${text} * ${text} * ${text})`;
    if (exponent.value === 1.5) return `(${text} * Math.sqrt(${text}))`;
  }
  if (exponent.kind === "number" && exponent.value === 0.5) return `Math.sqrt(${text})`;
  return `Math.pow(${text}, ${js(exponent)})`;
}
