import { describe, expect, it } from "vitest";
import {
  compile,
  evaluate,
  foldConstants,
  mostThatHold,
  parseFormula,
  rateOf,
  rateOfPower,
  toJavaScript,
} from "../../kernel-lib/src/formula";

describe("elasticity of an expression", () => {
  const at = (formula: string, x: number): { value: number; elasticity: number } =>
    rateOf(parseFormula(formula), (name) => (name === "x" ? rateOfPower(x, 1) : rateOfPower(2, 0)));
  it.each([
    // d ln f / d ln x worked by hand at x = 0.7.
    ["3 * x^1.5 / a", 1.5],
    ["sqrt(x)", 0.5],
    ["x^(5 / 3)", 5 / 3],
    ["x * x / x^3", -1],
    ["a", 0],
    ["x + x", 1],
    ["min(x, a) * max(x, a)", 1],
    ["exp(x)", 0.7],
    ["ln(x)", 1 / Math.log(0.7)],
    ["sin(x)", 0.7 / Math.tan(0.7)],
    ["cos(x)", -0.7 * Math.tan(0.7)],
    ["x + a", 0.7 / 2.7],
    ["a - x", -0.7 / 1.3],
    ["a^x", 0.7 * Math.LN2],
    ["if(x < a, x^2, x)", 2],
    ["-x", 1],
    ["abs(0 - x)", 1],
    ["x * (x < a)", 1],
    ["1 + a / (1 / 0) + x", 0.7 / 1.7],
  ])("%s", (formula, expected) => {
    const { value, elasticity } = at(formula, 0.7);
    expect(elasticity).toBeCloseTo(expected, 14);
    expect(value).toBe(evaluate(parseFormula(formula), (name) => (name === "x" ? 0.7 : 2)));
  });
  it("goes through zero: a term that vanishes does not spoil the sum", () => {
    expect(
      rateOf(parseFormula("(n - 1) * s + x"), (name) =>
        rateOfPower({ n: 1, s: 0, x: 3 }[name] ?? NaN, name === "n" ? 0 : 1),
      ).elasticity,
    ).toBe(1);
  });
  it("tells which branches it takes, and a tie where rounding alone would decide", () => {
    const branches = (x: number): number[] => {
      const told: number[] = [];
      rateOf(
        parseFormula("if(x >= 1, min(x, 3 * x / 3), 1)"),
        () => rateOfPower(x, 1),
        (branch) => told.push(branch),
      );
      return told;
    };
    expect(branches(0.5)).toEqual([0]);
    expect(branches(1.1)).toEqual(branches(1.3));
  });
});

describe("folding drops only what holds for every value", () => {
  const values = [0, -0, 1, -1, 0.3, 1e300, 5e-324, Infinity, -Infinity, NaN];
  it.each([
    "min(x, y, u)",
    "min(u, x)",
    "max(x, 0 - u)",
    "(u < x) + (x < y)",
    "if((x < y) + (u < x) + (y < 1) >= 3, x, y)",
    "(x < y) + (y < x) >= 2.5",
  ])("%s", (formula) => {
    const folded = foldConstants(parseFormula(formula), new Map([["u", Infinity]]));
    const run = compile<(x: number, y: number) => number>(
      ["x", "y"],
      `return Number(${toJavaScript(folded, (name) => name)});`,
    );
    for (const x of values)
      for (const y of values) {
        const whole = evaluate(
          parseFormula(formula),
          (name) => ({ x, y, u: Infinity })[name] ?? NaN,
        );
        expect(Object.is(run(x, y), whole), `${x}, ${y}: ${run(x, y)} for ${whole}`).toBe(true);
        expect(
          Object.is(
            evaluate(folded, (name) => ({ x, y })[name] ?? NaN),
            whole,
          ),
        ).toBe(true);
      }
  });
  it("counts conditions, nothing else", () => {
    expect(mostThatHold(parseFormula("(a < b) + (c >= d) + 1"), () => Infinity)).toBe(3);
    expect(mostThatHold(parseFormula("(a < b) + c"), () => Infinity)).toBe(Infinity);
    expect(mostThatHold(parseFormula("k + (a < b)"), () => 2)).toBe(3);
  });
});
