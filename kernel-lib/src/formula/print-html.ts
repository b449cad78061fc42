import type { BinaryOperator, Expression } from "./expression";
import { bindingStrength } from "./print-text";
import { symbolRuns } from "./symbol-runs";
import { symbolText } from "./symbol-names";

const SIGN: Readonly<Partial<Record<BinaryOperator, string>>> = {
  "||": " or ",
  "&&": " and ",
  "==": " = ",
  "!=": " ≠ ",
  "<=": " ≤ ",
  ">=": " ≥ ",
  "<": " &lt; ",
  ">": " &gt; ",
  "*": " × ",
  "/": " / ",
  "+": " + ",
  "-": " − ",
};

/**
 * Writes an expression as one line of HTML that needs nothing but raised and lowered text, so that
 * it reads the same where a page strips MathML and runs no script, as a notebook does that is not
 * trusted. `show` decides how each symbol appears (its name or its value), as HTML.
 * @example
 * toHtmlLine(parseFormula("k_c * h_ef^1.5")) // "<i>k</i><sub>c</sub> × <i>h</i><sub>ef</sub><sup>1.5</sup>"
 */
export function toHtmlLine(
  expression: Expression,
  show: (name: string) => string = symbolHtml,
  outer: number = 0,
): string {
  const line = (e: Expression, strength = 0): string => toHtmlLine(e, show, strength);
  switch (expression.kind) {
    case "number":
      return numberHtml(String(expression.value));
    case "symbol":
      return show(expression.name);
    case "unary": {
      const text = `${expression.operator === "!" ? "not " : "−"}${line(expression.operand, 7)}`;
      return outer > 5 ? `(${text})` : text;
    }
    case "binary": {
      const { operator, left, right } = expression;
      const strength = bindingStrength(operator);
      if (operator === "^") return power(left, line(left, strength + 1), line(right), outer);
      // Brackets as in plain text: read from left to right, the line is the calculation made.
      const quotient = right.kind === "binary" && right.operator === "/";
      const rightFirst = operator === "-" || operator === "/" || quotient ? strength + 1 : strength;
      const text = `${line(left, strength)}${SIGN[operator] ?? operator}${line(right, rightFirst)}`;
      return strength < outer ? `(${text})` : text;
    }
    case "call": {
      const args = expression.args.map((argument) => line(argument));
      if (expression.name === "if") return `(${args[1]} if ${args[0]}, else ${args[2]})`;
      if (expression.name === "sqrt") {
        const plain = ["symbol", "number"].includes(expression.args[0]?.kind ?? "");
        return plain ? `√${args[0]}` : `√(${args[0]})`;
      }
      return `${expression.name}(${args.join("; ")})`;
    }
  }
}

/** The exponent is raised; a base that ends in a root or a call is bracketed, lest it take it. */
function power(left: Expression, base: string, exponent: string, outer: number): string {
  const bracketed = left.kind === "call" && !base.startsWith("(") ? `(${base})` : base;
  const text = `${bracketed}<sup>${exponent}</sup>`;
  return bindingStrength("^") < outer ? `(${text})` : text;
}

/** A symbol with its subscript lowered: `psi_ed_N` gives `<i>ψ</i><sub>ed,N</sub>`. */
export function symbolHtml(name: string): string {
  if (name === "f_c") return "<i>f'</i><sub>c</sub>";
  const [head = "", ...below] = symbolText(name).split("_");
  // A name made of words stays words, as in the other forms.
  if (head.replace("'", "").length > 2) return escaped(name.replaceAll("_", " "));
  const subscript = below.length === 0 ? "" : `<sub>${escaped(below.join(","))}</sub>`;
  return `<i>${escaped(head)}</i>${subscript}`;
}

/** Running text with its symbols slanted and their subscripts lowered, harmless as HTML. */
export function runsHtml(text: string): string {
  const tag = { line: "", symbol: "i", sub: "sub" } as const;
  // The one symbol of the standards that is written without an underscore.
  return symbolRuns(text.replace(/(?<!\p{L})f'c(?!\p{L})/gu, "f'_c"))
    .map(({ text: piece, script }) =>
      script === "line" ? escaped(piece) : `<${tag[script]}>${escaped(piece)}</${tag[script]}>`,
    )
    .join("");
}

/** A written number; a power of ten is raised. */
export function numberHtml(text: string): string {
  return escaped(text).replace(
    /e\+?(-?\d+)/,
    (_, power: string) => ` × 10<sup>${power.replace("-", "−")}</sup>`,
  );
}

function escaped(text: string): string {
  return text
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;");
}
