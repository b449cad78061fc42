import type { BinaryOperator, Expression } from "./expression";
import { bindingStrength } from "./print-text";
import { symbolLatex } from "./symbol-names";

const OPERATOR: Readonly<Partial<Record<BinaryOperator, string>>> = {
  "||": "\\text{ or }",
  "&&": "\\text{ and }",
  "==": " = ",
  "!=": " \\ne ",
  "<=": " \\le ",
  ">=": " \\ge ",
  "<": " < ",
  ">": " > ",
  "+": " + ",
  "-": " - ",
};

/**
 * Writes an expression as LaTeX mathematics, with `show` deciding how each symbol appears (its name
 * or its value). Quotients become fractions, roots and powers are set as such, `if` becomes a case
 * distinction.
 */
export function toLatex(
  expression: Expression,
  show: (name: string) => string = symbolLatex,
  outer: number = 0,
): string {
  const latex = (e: Expression, strength = 0): string => toLatex(e, show, strength);
  switch (expression.kind) {
    case "number":
      return numberLatex(expression.value);
    case "symbol":
      return show(expression.name);
    case "unary": {
      const text = `${expression.operator === "!" ? "\\text{not } " : "-"}${latex(expression.operand, 7)}`;
      return outer > 5 ? `\\left(${text}\\right)` : text;
    }
    case "binary": {
      const { operator, left, right } = expression;
      if (operator === "/") {
        const fraction = `\\frac{${latex(left)}}{${latex(right)}}`;
        // A fraction needs no brackets in sums and products, only as the base of a power.
        return outer > 8 ? `\\left(${fraction}\\right)` : fraction;
      }
      const strength = bindingStrength(operator);
      if (operator === "^") {
        const base = latex(left, 9);
        return `${left.kind === "symbol" && base.includes("'") ? `{${base}}` : base}^{${latex(right)}}`;
      }
      const [first, second] = [
        latex(left, strength),
        latex(right, operator === "-" ? strength + 1 : strength),
      ];
      // Digits side by side would read as one number.
      const product = /[\d})]$/.test(first) && /^\d/.test(second) ? " \\cdot " : " \\, ";
      const text =
        operator === "*"
          ? `${first}${product}${second}`
          : `${first}${OPERATOR[operator] ?? operator}${second}`;
      return strength < outer ? `\\left(${text}\\right)` : text;
    }
    case "call":
      return callLatex(expression.name, expression.args, latex);
  }
}

function callLatex(
  name: string,
  args: readonly Expression[],
  latex: (e: Expression) => string,
): string {
  const written = args.map((argument) => latex(argument));
  switch (name) {
    case "sqrt":
      return `\\sqrt{${written[0]}}`;
    case "abs":
      return `\\left|${written[0]}\\right|`;
    case "if":
      return `\\begin{cases} ${caseRows(args, latex).join(" \\\\ ")} \\end{cases}`;
    default:
      return `\\${name}\\left(${written.join(",\\; ")}\\right)`;
  }
}

/** The rows of a case distinction; one that begins where another ends goes on in the same brace. */
function caseRows(args: readonly Expression[], latex: (e: Expression) => string): string[] {
  const [condition, yes, no] = args.map((argument) => latex(argument));
  const last = args[2];
  const rest =
    last?.kind === "call" && last.name === "if"
      ? caseRows(last.args, latex)
      : [`${no} & \\text{otherwise}`];
  return [`${yes} & \\text{if } ${condition}`, ...rest];
}

/** A number in LaTeX: 1e-7 is written as a power of ten. */
export function numberLatex(value: number): string {
  const text = String(value);
  const [mantissa, exponent] = text.split("e");
  return exponent === undefined ? text : `${mantissa} \\times 10^{${Number(exponent)}}`;
}
