import type * as Docx from "docx";
import { bindingStrength, operands, symbolText, toText, type Expression } from "../../formula";

type Piece = Docx.MathComponent;
const SIGN: Readonly<Record<string, string>> = { "*": "\u2009", "+": " + ", "-": " − ", "<": " < ", "<=": " ≤ ", ">": " > ", ">=": " ≥ ", "==": " = ", "!=": " ≠ ", "&&": " and ", "||": " or " };

/** An equation that a word processor can edit: fractions, roots and powers are set as such. */
export function equation(docx: typeof Docx, block: { readonly symbol: string; readonly expression: Expression }): Docx.Math {
  return new docx.Math({ children: [symbol(docx, block.symbol), new docx.MathRun(" = "), ...pieces(docx, block.expression, 0)] });
}

/** `psi_ed,N` with what follows the first underscore as a subscript. */
function symbol(docx: typeof Docx, name: string): Piece {
  const [base = "", ...rest] = symbolText(name).split("_");
  if (rest.length === 0) return new docx.MathRun(base);
  return new docx.MathSubScript({ children: [new docx.MathRun(base)], subScript: [new docx.MathRun(rest.join("_"))] });
}

function pieces(docx: typeof Docx, e: Expression, outer: number): Piece[] {
  const inside = (of: Expression | undefined, strength = 0): Piece[] => (of ? pieces(docx, of, strength) : []);
  switch (e.kind) {
    case "number":
      return [new docx.MathRun(toText(e))];
    case "symbol":
      return [symbol(docx, e.name)];
    case "unary":
      return [new docx.MathRun(e.operator === "!" ? "not " : "−"), ...inside(e.operand, 7)];
    case "binary": {
      if (e.operator === "/") return [new docx.MathFraction({ numerator: inside(e.left), denominator: inside(e.right) })];
      if (e.operator === "^") return [new docx.MathSuperScript({ children: inside(e.left, 9), superScript: inside(e.right) })];
      const strength = bindingStrength(e.operator);
      const sign = e.operator === "*" && operands(e).every(({ kind }) => kind === "number") ? " · " : (SIGN[e.operator] ?? e.operator);
      const written = [...inside(e.left, strength), new docx.MathRun(sign), ...inside(e.right, e.operator === "-" ? strength + 1 : strength)];
      return strength < outer ? [new docx.MathRoundBrackets({ children: written })] : written;
    }
    case "call": {
      const [first, second, third] = e.args;
      if (e.name === "sqrt") return [new docx.MathRadical({ children: inside(first) })];
      if (e.name === "if") return [...inside(second), new docx.MathRun(" if "), ...inside(first), new docx.MathRun(", else "), ...inside(third)];
      const list = e.args.flatMap((one, n) => [...(n === 0 ? [] : [new docx.MathRun("; ")]), ...inside(one)]);
      return [new docx.MathRun(e.name), new docx.MathRoundBrackets({ children: list })];
    }
  }
}
