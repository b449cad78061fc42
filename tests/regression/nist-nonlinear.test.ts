import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { Dual, nonlinearLeastSquares, powerOf } from "../../kernel-lib/src/regression";
import { correctDigits } from "./correct-digits";

type Model = (x: number, b: readonly Dual[]) => Dual;
const exp = (d: Dual): Dual => d.exp();
const one = (b: Dual): Dual =>
  Dual.parameter(1, 0, b.slopes.length).minus(Dual.parameter(0, 0, b.slopes.length));
const polynomial = (x: number, b: readonly Dual[]): Dual =>
  b.reduceRight((sum, c) => sum.times(x).plus(c), b[0]!.times(0));
const rational = (x: number, top: readonly Dual[], bottom: readonly Dual[]): Dual =>
  polynomial(x, top).over(polynomial(x, bottom).times(x).plus(1));

/** Model equations as NIST StRD states them (itl.nist.gov/div898/strd/nls). */
const models: Record<string, Model> = {
  Misra1a: (x, [a, b]) => a!.times(exp(b!.times(-x)).negated().plus(1)),
  Chwirut2: (x, [a, b, c]) => exp(a!.times(-x)).over(b!.plus(c!.times(x))),
  DanWood: (x, [a, b]) => a!.times(powerOf(x, b!)),
  Misra1b: (x, [a, b]) =>
    a!.times(
      b!
        .times(x / 2)
        .plus(1)
        .power(-2)
        .negated()
        .plus(1),
    ),
  Kirby2: (x, b) => rational(x, b.slice(0, 3), b.slice(3)),
  Hahn1: (x, b) => rational(x, b.slice(0, 4), b.slice(4)),
  MGH17: (x, [a, b, c, d, e]) =>
    a!.plus(b!.times(exp(d!.times(-x)))).plus(c!.times(exp(e!.times(-x)))),
  Misra1c: (x, [a, b]) =>
    a!.times(
      b!
        .times(2 * x)
        .plus(1)
        .power(-0.5)
        .negated()
        .plus(1),
    ),
  Misra1d: (x, [a, b]) => a!.times(b!).times(x).over(b!.times(x).plus(1)),
  Roszman1: (x, [a, b, c, d]) =>
    a!.minus(b!.times(x)).minus(
      c!
        .over(d!.negated().plus(x))
        .atan()
        .times(1 / Math.PI),
    ),
  ENSO: (x, b) => {
    const w = 2 * Math.PI * x;
    const wave = (period: Dual, c: Dual, s: Dual): Dual => {
      const angle = one(period).times(w).over(period);
      return c.times(angle.cos()).plus(s.times(angle.sin()));
    };
    return b[0]!
      .plus(b[1]!.times(Math.cos(w / 12)))
      .plus(b[2]!.times(Math.sin(w / 12)))
      .plus(wave(b[3]!, b[4]!, b[5]!))
      .plus(wave(b[6]!, b[7]!, b[8]!));
  },
  MGH09: (x, [a, b, c, d]) =>
    a!.times(b!.times(x).plus(x * x)).over(
      c!
        .times(x)
        .plus(x * x)
        .plus(d!),
    ),
  Thurber: (x, b) => rational(x, b.slice(0, 4), b.slice(4)),
  BoxBOD: (x, [a, b]) => a!.times(exp(b!.times(-x)).negated().plus(1)),
  Rat42: (x, [a, b, c]) => a!.over(exp(b!.minus(c!.times(x))).plus(1)),
  MGH10: (x, [a, b, c]) => a!.times(exp(b!.over(c!.plus(x)))),
  Eckerle4: (x, [a, b, c]) => a!.over(b!).times(exp(c!.minus(x).over(b!).power(2).times(-0.5))),
  Rat43: (x, [a, b, c, d]) =>
    a!.over(
      exp(b!.minus(c!.times(x)))
        .plus(1)
        .power(one(d!).over(d!)),
    ),
  Bennett5: (x, [a, b, c]) => a!.times(b!.plus(x).power(one(c!).over(c!).negated())),
};

const file = fileURLToPath(new URL("../../../shared/reference/strd.json", import.meta.url));
const present = existsSync(file);
if (!present)
  console.log(
    "skipped: the nonlinear sets of NIST StRD, because the reference folder beside the project is absent",
  );
interface Stored {
  start1: string[];
  start2: string[];
  certified: string[];
  se: string[];
  rss: string;
  rows: string[][];
}
const stored = present ? (JSON.parse(readFileSync(file, "utf8")) as Record<string, Stored>) : {};

describe("nonlinear sets of NIST StRD, both starts", () => {
  for (const [name, model] of Object.entries(models))
    for (const which of ["start1", "start2"] as const) {
      it.skipIf(!present)(`${name} from ${which}: 6 digits and standard errors to 5`, () => {
        const set = stored[name]!;
        const names = set.certified.map((_, j) => `b${j + 1}`);
        const fit = nonlinearLeastSquares({
          y: set.rows.map((r) => Number(r[0])),
          columns: { x: set.rows.map((r) => Number(r[1])) },
          start: Object.fromEntries(names.map((n, j) => [n, Number(set[which][j])])),
          model: ({ x }, b) =>
            model(
              x!,
              names.map((n) => b[n]!),
            ),
          maxSteps: 20_000,
        });
        set.certified.forEach((c, j) => {
          expect(
            correctDigits(fit.coefficients[j]!.estimate, Number(c)),
            `b${j + 1}`,
          ).toBeGreaterThan(6);
          expect(
            correctDigits(fit.coefficients[j]!.standardError, Number(set.se[j])),
            `se ${j + 1}`,
          ).toBeGreaterThan(5);
        });
        expect(correctDigits(fit.residualSumOfSquares, Number(set.rss))).toBeGreaterThan(6);
      });
    }
});

describe("nonlinearLeastSquares", () => {
  it("recovers a rising bond-slip branch tau = peak (s / s1)^a from exact values", () => {
    const slip = [0.02, 0.05, 0.1, 0.3, 0.6];
    const fit = nonlinearLeastSquares({
      y: slip.map((s) => 12 * s ** 0.4 + 0.01 * Math.sin(50 * s)),
      columns: { slip },
      start: { peak: 5, a: 0.8 },
      model: (row, b) => b["peak"]!.times(powerOf(row["slip"]!, b["a"]!)),
    });
    expect(fit.coefficient("a").estimate).toBeCloseTo(0.4, 2);
    expect(fit.predict({ slip: [0.2] })[0]).toBeCloseTo(12 * 0.2 ** 0.4, 1);
  });
  it("dual slopes agree with central differences", () => {
    const f = (v: Dual): Dual =>
      v
        .times(v)
        .plus(3)
        .sqrt()
        .over(v.tanh().plus(2))
        .minus(v.atan().times(v.cos()))
        .plus(v.power(1.7))
        .plus(v.log().sin());
    for (const at of [0.3, 1.1, 2.7]) {
      const plain = (t: number): number => f(new Dual(t, Float64Array.of(0))).value;
      expect(f(Dual.parameter(at, 0, 1)).slopes[0]).toBeCloseTo(
        (plain(at + 1e-5) - plain(at - 1e-5)) / 2e-5,
        7,
      );
    }
  });
  it("refuses by name", () => {
    const run = (
      start: Record<string, number>,
      model: (x: number, b: Readonly<Record<string, Dual>>) => Dual,
      y = [1, 2, 4, 7],
    ): unknown =>
      nonlinearLeastSquares({
        y,
        columns: { x: [1, 2, 3, 4] },
        start,
        model: (row, b) => model(row["x"]!, b),
      });
    expect(() => run({ a: 1, b: 1 }, (x, p) => p["a"]!.plus(p["b"]!).times(x))).toThrow(
      /combination|not independent|independent/,
    );
    expect(() => run({ a: -1 }, (x, p) => p["a"]!.log().times(x))).toThrow(
      "no finite value or slope at the start",
    );
    expect(() => run({ a: 1, b: 1 }, (_x, p) => p["a"]!.plus(p["b"]!), [1, NaN, NaN, 2])).toThrow(
      "expected at least 1 parameter and 3 rows",
    );
  });
});
