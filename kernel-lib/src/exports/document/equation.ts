import type * as Docx from "docx";
import { bindingStrength, operands, symbolText, toText, type Expression } from "../../formula";

type Piece = Docx.MathComponent;
/** Signs of the operators, a product as a thin space. */
export const SIGN: Readonly<Record<string, string>> = {
  "*": "\u2009",
  "+": " + ",
  "-": " − ",
  "<": " < ",
  "<=": " ≤ ",
  ">": " > ",
  ">=": " ≥ ",
  "==": " = ",
  "!=": " ≠ ",
  "&&": " and ",
  "||": " or ",
};

type Write = (text: string) => Piece;

/**
 * An equation that a word processor can edit: fractions, roots and powers are set as such; a new
 * one is underlined, a removed one struck.
 */
export function equation(
  docx: typeof Docx,
  block: { readonly symbol: string; readonly expression: Expression },
  change?: "inserted" | "deleted",
): Docx.Math {
  const run = runOf(
    docx,
    change === "inserted" ? { bold: true, underline: { type: docx.UnderlineType.SINGLE } } : {},
  );
  const children = [
    symbol(docx, block.symbol, run),
    run(" = "),
    ...pieces(docx, block.expression, run, 0),
  ];
  return new docx.Math({ children: change === "deleted" ? [struck(docx, children)] : children });
}

/**
 * A line through an equation: a box of which only that line is drawn (`borderBox` of Office MathML,
 * ECMA-376 part 1). The strike of its text alone is drawn by some word processors and passed over
 * by others. The library has no such box, so it is put together here.
 */
function struck(docx: typeof Docx, children: readonly Piece[]): Piece {
  const { BuilderElement } = docx;
  const on = (name: string): Docx.XmlComponent =>
    new BuilderElement({ name, attributes: { value: { key: "m:val", value: "1" } } });
  return new BuilderElement({
    name: "m:borderBox",
    children: [
      new BuilderElement({
        name: "m:borderBoxPr",
        children: ["m:hideTop", "m:hideBot", "m:hideLeft", "m:hideRight", "m:strikeH"].map(on),
      }),
      new BuilderElement({ name: "m:e", children: [...children] }),
    ],
  });
}

/**
 * Text of an equation. The library lets it have no marks, the format does: its properties stand
 * before its text.
 */
function runOf(docx: typeof Docx, marks: Docx.IRunOptions): Write {
  class MarkedRun extends docx.MathRun {
    constructor(text: string) {
      super(text);
      if (Object.keys(marks).length > 0)
        this.root.unshift(new docx.RunProperties({ ...marks, font: "Cambria Math" }));
    }
  }
  return (text) => new MarkedRun(text);
}

/** `psi_ed,N` with what follows the first underscore as a subscript. */
function symbol(docx: typeof Docx, name: string, run: Write): Piece {
  const [base = "", ...rest] = symbolText(name).split("_");
  if (rest.length === 0) return run(base);
  return new docx.MathSubScript({ children: [run(base)], subScript: [run(rest.join("_"))] });
}

function pieces(docx: typeof Docx, e: Expression, run: Write, outer: number): Piece[] {
  const inside = (of: Expression | undefined, strength = 0): Piece[] =>
    of ? pieces(docx, of, run, strength) : [];
  switch (e.kind) {
    case "number":
      return [run(toText(e))];
    case "symbol":
      return [symbol(docx, e.name, run)];
    case "unary":
      return [run(e.operator === "!" ? "not " : "−"), ...inside(e.operand, 7)];
    case "binary": {
      if (e.operator === "/")
        return [new docx.MathFraction({ numerator: inside(e.left), denominator: inside(e.right) })];
      if (e.operator === "^")
        return [
          new docx.MathSuperScript({ children: inside(e.left, 9), superScript: inside(e.right) }),
        ];
      const strength = bindingStrength(e.operator);
      const sign =
        e.operator === "*" && operands(e).every(({ kind }) => kind === "number")
          ? " · "
          : (SIGN[e.operator] ?? e.operator);
      const written = [
        ...inside(e.left, strength),
        run(sign),
        ...inside(e.right, e.operator === "-" ? strength + 1 : strength),
      ];
      return strength < outer ? [new docx.MathRoundBrackets({ children: written })] : written;
    }
    case "call": {
      const [first, second, third] = e.args;
      if (e.name === "sqrt") return [new docx.MathRadical({ children: inside(first) })];
      if (e.name === "if")
        return [...inside(second), run(" if "), ...inside(first), run(", else "), ...inside(third)];
      const list = e.args.flatMap((one, n) => [...(n === 0 ? [] : [run("; ")]), ...inside(one)]);
      return [run(e.name), new docx.MathRoundBrackets({ children: list })];
    }
  }
}
