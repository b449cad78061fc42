import {
  bindingStrength,
  operands,
  symbolRuns,
  symbolText,
  toText,
  type Expression,
} from "../../formula";
import type { FontFace } from "../images/fonts";
import { SIGN } from "./equation";

/**
 * A laid-out piece of an equation: its extent about the baseline, in points, and how it is drawn
 * from its left end there.
 */
export interface EquationBox {
  readonly width: number;
  readonly ascent: number;
  readonly descent: number;
  draw(x: number, baseline: number): void;
}

const INK = "#1a1a1a";
/** Size of what stands below or above the line, as a share of the size on the line. */
const SCRIPT = 0.72;
/** Least size, in points, however deep scripts and fractions go. */
const LEAST = 5.5;
/**
 * Height of the axis of fractions above the baseline, and extents of the letters, as shares of the
 * size.
 */
const [AXIS, ASCENT, DESCENT] = [0.32, 0.78, 0.2] as const;

/**
 * Sets equations with real fractions, roots, powers and subscripts. The text stays text: it can be
 * searched and copied.
 * @example const box = equationSetter(document)("N_b", expression, 10); box.draw(72, 300);
 */
export function equationSetter(
  document: PDFKit.PDFDocument,
): (symbol: string, expression: Expression, size: number) => EquationBox {
  const word = (text: string, size: number, face: FontFace = "regular"): EquationBox => {
    const width = document.font(face).fontSize(size).widthOfString(text);
    return {
      width,
      ascent: ASCENT * size,
      descent: DESCENT * size,
      draw: (x, baseline) =>
        void document
          .font(face)
          .fontSize(size)
          .fillColor(INK)
          .text(text, x, baseline, { lineBreak: false, baseline: "alphabetic" }),
    };
  };
  const row = (boxes: readonly EquationBox[]): EquationBox => ({
    width: boxes.reduce((sum, { width }) => sum + width, 0),
    ascent: Math.max(0, ...boxes.map(({ ascent }) => ascent)),
    descent: Math.max(0, ...boxes.map(({ descent }) => descent)),
    draw: (x, baseline) =>
      void boxes.reduce((left, box) => (box.draw(left, baseline), left + box.width), x),
  });
  const shifted = (box: EquationBox, up: number): EquationBox => ({
    width: box.width,
    ascent: box.ascent + up,
    descent: box.descent - up,
    draw: (x, baseline) => box.draw(x, baseline - up),
  });
  const script = (size: number): number => Math.max(LEAST, SCRIPT * size);
  const line = (
    fromX: number,
    fromY: number,
    points: readonly (readonly [number, number])[],
    thickness: number,
  ): void => {
    document.moveTo(fromX, fromY);
    for (const [x, y] of points) document.lineTo(x, y);
    document.lineWidth(thickness).stroke(INK);
  };
  // Running text writes f'c in one piece; set as an equation its c stands below.
  const named = (name: string): string => symbolText(name).replace(/^f'c$/, "f'_c");
  const symbol = (name: string, size: number): EquationBox =>
    row(
      symbolRuns(named(name)).map(({ text, script: where }) =>
        where === "sub"
          ? shifted(word(text, script(size)), -0.22 * size)
          : word(text, size, "oblique"),
      ),
    );
  const bracketed = (inner: EquationBox, size: number): EquationBox => {
    // Brackets grow with what they hold.
    const tall = Math.max(size, inner.ascent + inner.descent);
    const bracket = (text: string): EquationBox =>
      shifted(
        word(text, tall),
        (inner.ascent - inner.descent) / 2 - ((ASCENT - DESCENT) * tall) / 2,
      );
    return row([bracket("("), inner, bracket(")")]);
  };
  const fraction = (top: EquationBox, bottom: EquationBox, size: number): EquationBox => {
    const width = Math.max(top.width, bottom.width) + 4;
    const [axis, gap] = [AXIS * size, 0.16 * size];
    return {
      width: width + 3,
      ascent: axis + gap + top.ascent + top.descent,
      descent: gap - axis + bottom.ascent + bottom.descent,
      draw: (x, baseline) => {
        top.draw(x + 1.5 + (width - top.width) / 2, baseline - axis - gap - top.descent);
        bottom.draw(x + 1.5 + (width - bottom.width) / 2, baseline - axis + gap + bottom.ascent);
        line(x + 1.5, baseline - axis, [[x + 1.5 + width, baseline - axis]], 0.6);
      },
    };
  };
  const root = (inner: EquationBox, size: number): EquationBox => {
    const [hook, clear] = [0.62 * size, 0.2 * size];
    return {
      width: hook + inner.width + 2,
      ascent: inner.ascent + clear,
      descent: inner.descent,
      draw: (x, baseline) => {
        const top = baseline - inner.ascent - clear + 0.4;
        const foot = baseline + inner.descent - 0.4;
        line(
          x + 0.08 * size,
          baseline - 0.3 * size,
          [
            [x + 0.2 * size, baseline - 0.36 * size],
            [x + 0.36 * size, foot],
            [x + hook, top],
            [x + hook + inner.width + 1.5, top],
          ],
          0.6,
        );
        inner.draw(x + hook + 0.5, baseline);
      },
    };
  };
  const set = (e: Expression | undefined, size: number, outer = 0): EquationBox => {
    if (e === undefined) return row([]);
    switch (e.kind) {
      case "number":
        return word(toText(e), size);
      case "symbol":
        return symbol(e.name, size);
      case "unary": {
        const box = row([word(e.operator === "!" ? "not " : "−", size), set(e.operand, size, 7)]);
        return outer > 5 ? bracketed(box, size) : box;
      }
      case "binary": {
        const { operator, left, right } = e;
        if (operator === "/") {
          const box = fraction(set(left, size), set(right, size), size);
          return outer > 8 ? bracketed(box, size) : box;
        }
        if (operator === "^") {
          const base = set(left, size, 9);
          return row([
            base,
            shifted(set(right, script(size)), Math.max(0.42 * size, base.ascent - 0.45 * size)),
          ]);
        }
        const strength = bindingStrength(operator);
        const sign =
          operator === "*" && operands(e).every(({ kind }) => kind === "number")
            ? " · "
            : (SIGN[operator] ?? operator);
        const box = row([
          set(left, size, strength),
          word(sign, size),
          set(right, size, operator === "-" ? strength + 1 : strength),
        ]);
        return strength < outer ? bracketed(box, size) : box;
      }
      case "call": {
        const [first, second, third] = e.args;
        if (e.name === "sqrt") return root(set(first, size), size);
        if (e.name === "if") {
          const box = row([
            set(second, size),
            word(" if ", size),
            set(first, size),
            word(", else ", size),
            set(third, size),
          ]);
          return outer > 0 ? bracketed(box, size) : box;
        }
        return row([
          word(e.name, size),
          bracketed(
            row(
              e.args.flatMap((one, n) => [...(n === 0 ? [] : [word("; ", size)]), set(one, size)]),
            ),
            size,
          ),
        ]);
      }
    }
  };
  return (name, expression, size) =>
    row([symbol(name, size), word(" = ", size), set(expression, size)]);
}
