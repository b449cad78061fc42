import { describe, expect, it } from "vitest";
import {
  compileColumnLoop,
  evaluate,
  parseFormula,
  type LoopOutput,
} from "../../kernel-lib/src/formula";
import { createRandom } from "../../kernel-lib/src/statistics";
import { randomFormula, SYMBOLS } from "./random-formulas";

const SPECIAL = [0, -0, 1, -1, NaN, Infinity, -Infinity, 0.5, 1.5, 2, 3, 5e-324, 1e308];
const random = createRandom(20_264);
const pick = <T>(of: readonly T[]): T => of[Math.floor(random.uniform() * of.length)] as T;
const column = (n: number): Float64Array =>
  Float64Array.from({ length: n }, () =>
    random.uniform() < 0.4 ? pick(SPECIAL) : (random.uniform() - 0.3) * 300,
  );
const number = (formula: string): LoopOutput => ({ kind: "number", value: parseFormula(formula) });
const whole = (formula: string): LoopOutput => ({ kind: "integer", value: parseFormula(formula) });

describe("formulas over columns", () => {
  it("give the bits of the walked formula in every row, special values and a last odd row included", () => {
    for (let round = 0; round < 40; round += 1) {
      const n = pick([1, 2, 7, 30, 31]);
      const columns = SYMBOLS.map(() => column(n));
      const formulas = Array.from({ length: 25 }, () => randomFormula(random, 4));
      const found = formulas.map(() => new Float64Array(n));
      compileColumnLoop({ columns: SYMBOLS, inputs: [], lines: [], outputs: formulas.map(number) })(
        n,
        columns,
        found,
      );
      formulas.forEach((formula, k) => {
        const expression = parseFormula(formula);
        for (let i = 0; i < n; i += 1) {
          const walked = evaluate(expression, (name) => columns[SYMBOLS.indexOf(name)]?.[i] ?? NaN);
          if (!Object.is(found[k]?.[i], walked))
            expect.fail(
              `${formula} with ${columns.map((values) => values[i]).join(", ")}: ${found[k]?.[i] ?? "nothing"}, walked ${walked}`,
            );
        }
      });
    }
  });

  it("keep their bits where 1, 0 and NaN are worked away", () => {
    const formulas = [
      "1 * a",
      "a * 1",
      "a / 1",
      "1 + 0 / a",
      "1 / (1 + 0 / a) * (1 / (1 + 0 / b)) * c",
      "sqrt(4 + 0 / a) + b",
      "if(a < b, c, c)",
      "if(a > 0, b, 0)",
      "if(a > 0, 0, b)",
      "if(a > 0 || b > 0, a < b, b < a)",
      "0 + a",
      "-(2 + 0 / a)",
      "(3 + 0 / a) < b",
      "(a < b) * 1 + 1 * (b < a)",
    ];
    const columns = SYMBOLS.map(() => column(500));
    const found = formulas.map(() => new Float64Array(500));
    compileColumnLoop({ columns: SYMBOLS, inputs: [], lines: [], outputs: formulas.map(number) })(
      500,
      columns,
      found,
    );
    formulas.forEach((formula, k) =>
      found[k]?.forEach((value, i) =>
        expect(value, `${formula} row ${i}`).toBe(
          evaluate(parseFormula(formula), (name) => columns[SYMBOLS.indexOf(name)]?.[i] ?? NaN),
        ),
      ),
    );
  });

  it("fill whole numbers and numbers from shared inputs and named lines, and skip rows in which the condition fails", () => {
    const n = 5001;
    const [a, b] = [
      Float64Array.from({ length: n }, (_, i) => i - 2500),
      Float64Array.from({ length: n }, (_, i) => (i % 7) + 1),
    ];
    const half = { name: "half", value: parseFormula("a / 2") };
    const shadowed = { name: "x", value: parseFormula("half * 1000") };
    const [one, two, flags, other] = [
      new Float64Array(n),
      new Float64Array(n),
      new Int32Array(n),
      new Int32Array(n),
    ];
    compileColumnLoop({
      columns: ["a", "b"],
      inputs: [half, shadowed],
      lines: [{ name: "x", value: parseFormula("half * b") }],
      outputs: [number("x + 1"), whole("if(half > 1000, 1073741824, 0) + if(b == 3, 2, 0)")],
    })(n, [a, b], [one, flags]);
    compileColumnLoop({
      columns: ["a", "b"],
      inputs: [half],
      when: parseFormula("half > 0"),
      lines: [{ name: "x", value: parseFormula("half - b") }],
      outputs: [
        { ...number("x"), otherwise: parseFormula("0 - 1") },
        { ...whole("0 - 5"), otherwise: parseFormula("4") },
      ],
    })(n, [a, b], [two, other]);
    for (let i = 0; i < n; i += 1) {
      const [x, y] = [a[i] ?? NaN, b[i] ?? NaN];
      const flag = (x / 2 > 1000 ? 1_073_741_824 : 0) + (y === 3 ? 2 : 0);
      expect([one[i], flags[i], two[i], other[i]], `row ${i}`).toEqual([
        (x / 2) * y + 1,
        flag,
        x > 0 ? x / 2 - y : -1,
        x > 0 ? -5 : 4,
      ]);
    }
  });

  it("leave a column of whole numbers alone where it is 0", () => {
    const flags = new Int32Array(10).fill(7);
    compileColumnLoop({ columns: ["a"], inputs: [], lines: [], outputs: [whole("a < 0")] })(
      10,
      [new Float64Array(10)],
      [flags],
    );
    expect([...flags]).toEqual(new Array(10).fill(7));
  });
});
