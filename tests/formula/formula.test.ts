import { describe, expect, it } from "vitest";
import {
  compile,
  evaluate,
  foldConstants,
  parseFormula,
  renameSymbols,
  symbolLatex,
  symbolsOf,
  symbolText,
  toFormula,
  toJavaScript,
  toLatex,
  toSpreadsheet,
  toHtmlLine,
  toText,
  type Expression,
} from "../../kernel-lib/src/formula";
import { createRandom } from "../../kernel-lib/src/statistics";
import { randomFormula, SYMBOLS } from "./random-formulas";

const run = (expression: Expression, values: readonly number[]): number =>
  Number(
    compile<(...v: readonly number[]) => number>(
      SYMBOLS,
      `return ${toJavaScript(expression, (name) => name)};`,
    )(...values),
  );

describe("parseFormula", () => {
  it.each([
    ["2 + 3 * 4", 14],
    ["2 ^ 3 ^ 2", 512],
    ["2 * 3 ^ 2", 18],
    ["(2 + 3) * 4", 20],
    ["10 - 4 - 3", 3],
    ["16 / 4 / 2", 2],
    ["-2 + 5", 3],
    ["min(3, 1, 2)", 1],
    ["max(3)", 3],
    ["if(2 > 1, 7, 8)", 7],
    ["if(1 > 2, 7, 8)", 8],
    ["(1 < 2) + (2 < 3) + (3 < 2)", 2],
    ["abs(-3) + sqrt(16)", 7],
    ["1 < 2 && 2 < 1", 0],
    ["1 < 2 || 2 < 1", 1],
    ["!(1 < 2)", 0],
    ["ln(exp(2))", 2],
    ["4 ^ 1.5", 8],
    ["sin(0) + cos(0)", 1],
  ])("reads %s as %d", (formula, value) => {
    expect(evaluate(parseFormula(formula), () => NaN)).toBe(value);
    expect(run(parseFormula(formula), [])).toBe(value);
  });

  it.each([
    "foo(1)",
    "a.b",
    "a[0]",
    "'text'",
    "a ? b : c",
    "min()",
    "sqrt(1, 2)",
    "a = 2",
    "this",
    "a; b",
    "2 +",
    "a & b",
    "a % b",
    "-a^2",
    "(-a)^2",
    "constructor(1)",
    "toString(1)",
  ])("refuses %s and names it", (formula) => {
    expect(() => parseFormula(formula)).toThrow(`Formula "${formula}"`);
  });

  it("lists the symbols once, in order", () => {
    expect([...symbolsOf(parseFormula("b * a + min(b, c_1) ^ a"))]).toEqual(["b", "a", "c_1"]);
  });
});

describe("one formula, one set of bits", () => {
  const random = createRandom(20_261);
  const cases = Array.from({ length: 2000 }, () => ({
    formula: randomFormula(random, 4),
    values: SYMBOLS.map(
      () =>
        [0.5, 1.5, 2, 3, random.uniform() * 300, random.uniform()][
          Math.floor(random.uniform() * 6)
        ] ?? 1,
    ),
  }));

  it("walking the tree, compiling it, and folding any part first all agree to the last bit", () => {
    for (const { formula, values } of cases) {
      const expression = parseFormula(formula);
      const known = new Map(
        SYMBOLS.flatMap((name, k) =>
          random.uniform() < 0.5 ? [[name, values[k] ?? NaN] as const] : [],
        ),
      );
      const walked = evaluate(expression, (name) => values[SYMBOLS.indexOf(name)] ?? NaN);
      expect(run(expression, values), formula).toBe(walked);
      expect(
        run(foldConstants(expression, known), values),
        `${formula} with ${[...known.keys()].join()} known`,
      ).toBe(walked);
    }
  });

  it("is the same formula after being written out and read again, or renamed and renamed back", () => {
    for (const { formula, values } of cases) {
      const expression = parseFormula(formula);
      const again = parseFormula(toFormula(expression));
      expect(
        evaluate(again, (name) => values[SYMBOLS.indexOf(name)] ?? NaN),
        formula,
      ).toBe(evaluate(expression, (name) => values[SYMBOLS.indexOf(name)] ?? NaN));
      const exchange = { a: "b", b: "a" };
      expect(renameSymbols(renameSymbols(expression, exchange), exchange)).toEqual(expression);
    }
  });
});

describe("printers", () => {
  it.each([
    [
      "k_c * lambda_a * sqrt(f_c) * h_ef^1.5",
      "k_c × λ_a × √f'c × h_ef^1.5",
      "k_{\\mathrm{c}} \\, \\lambda_{\\mathrm{a}} \\, \\sqrt{f'_c} \\, h_{\\mathrm{ef}}^{1.5}",
    ],
    ["a - (b - c)", "a − (b − c)", "a - \\left(b - c\\right)"],
    ["a / (b * c)", "a / (b × c)", "\\frac{a}{b \\, c}"],
    ["(a + b) * c", "(a + b) × c", "\\left(a + b\\right) \\, c"],
    ["(a + b)^2", "(a + b)^2", "\\left(a + b\\right)^{2}"],
    [
      "if(a > 1, b, c)",
      "(b if a > 1, else c)",
      "\\begin{cases} b & \\text{if } a > 1 \\\\ c & \\text{otherwise} \\end{cases}",
    ],
    ["min(a, b)", "min(a; b)", "\\min\\left(a,\\; b\\right)"],
    ["sqrt(a + b)", "√(a + b)", "\\sqrt{a + b}"],
    ["(a / b)^2", "(a / b)^2", "\\left(\\frac{a}{b}\\right)^{2}"],
    ["a * (-b)", "a × (−b)", "a \\, \\left(-b\\right)"],
    ["a^(b + 1)", "a^(b + 1)", "a^{b + 1}"],
  ])("writes %s", (formula, text, latex) => {
    expect(toText(parseFormula(formula))).toBe(text);
    expect(toLatex(parseFormula(formula))).toBe(latex);
  });

  it.each([
    ["k_c * h_ef^1.5", "<i>k</i><sub>c</sub> × <i>h</i><sub>ef</sub><sup>1.5</sup>"],
    ["sqrt(f_c) / psi_ed_N", "√<i>f'</i><sub>c</sub> / <i>ψ</i><sub>ed,N</sub>"],
    ["sqrt(a)^2", "(√<i>a</i>)<sup>2</sup>"],
    ["(a + b)^(1 / 3)", "(<i>a</i> + <i>b</i>)<sup>1 / 3</sup>"],
    ["if(a < 1, cracked, 0.0000001)", "(cracked if <i>a</i> &lt; 1, else 1 × 10<sup>−7</sup>)"],
  ])("%s as a line of HTML", (formula, html) => {
    expect(toHtmlLine(parseFormula(formula))).toBe(html);
  });

  it("a line of HTML and plain text hold the same symbols and signs in the same order", () => {
    const random = createRandom(17);
    const bare = (text: string): string => text.replace(/[()^]/g, "");
    for (let k = 0; k < 300; k++) {
      const expression = parseFormula(randomFormula(random, 4));
      const read = toHtmlLine(expression)
        .replace(/<[^>]*>/g, "")
        .replaceAll("&lt;", "<")
        .replaceAll("&gt;", ">");
      expect(bare(read)).toBe(bare(toText(expression)));
    }
  });

  it("shows values in place of symbols, bracketing what would read wrongly", () => {
    expect(toText(parseFormula("a * b^2"), (name) => ({ a: "24", b: "6" })[name] ?? name)).toBe(
      "24 × 6^2",
    );
  });

  it("writes live cells, bracketed against the spreadsheet's stronger minus", () => {
    const cell = (name: string): string => name.toUpperCase() + "1";
    expect(toSpreadsheet(parseFormula("-(a^2)"), cell)).toBe("(0-(A1^2))");
    expect(toSpreadsheet(parseFormula("if(a == 1 && b > 2, min(a, b), sqrt(c)^2)"), cell)).toBe(
      "IF(AND((A1=1),(B1>2)),MIN(A1,B1),(SQRT(C1)^2))",
    );
    expect(toSpreadsheet(parseFormula("(a < b) + (b < c)"), cell)).toBe("((A1<B1)+(B1<C1))");
  });

  it("writes symbols as the standards do", () => {
    expect(symbolText("psi_ed_N")).toBe("ψ_ed,N");
    expect(symbolLatex("psi_ed_N")).toBe("\\psi_{\\mathrm{ed,N}}");
    expect(symbolLatex("h_ef_prime")).toBe("h'_{\\mathrm{ef}}");
    expect(symbolText("f_c")).toBe("f'c");
  });
});
