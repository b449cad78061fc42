import { describe, expect, it } from "vitest";
import { factorAlongVariable } from "../../../kernel-lib/src/proposals/size-rules";
import { loweredBySeries } from "../../../kernel-lib/src/proposals/size-rules/lowered-by-series";
import { leastSquares } from "../../../kernel-lib/src/regression";
import { createRandom, lineBySeries, type Random } from "../../../kernel-lib/src/statistics";
import { expectSaid } from "../../says";

const Z = 1.6448536269514722;
// The invented tests of line-by-series.py.
const Y = [
  [-0.02, 0.05, -0.11],
  [0.08, 0.15],
  [-0.14, -0.05, -0.1, -0.02],
  [0.01],
  [0.12, 0.2, 0.09],
  [0.02, -0.07],
];
const SAME = [[10, 10, 10], [10, 10], [16, 16, 16, 16], [16], [25, 25, 25], [25, 25]];
const MIXED = [[10, 12, 16], [10, 25], [16, 16, 20, 25], [12], [25, 20, 10], [25, 12]];
const y = Y.flat();
const series = Y.flatMap((one, j) => one.map(() => `s${j}`));
const question = { grid: [10, 16, 25].map(Math.log), fractile: 0.05, confidence: 0.9 };
const logs = (x: readonly number[]): number[] => x.map(Math.log);
const close = (found: readonly number[], expected: readonly number[], digits: number): void =>
  expected.forEach((value, k) => expect(found[k]).toBeCloseTo(value, digits));

const SIZES = [10, 12, 16, 20, 25];
/** Series of the given sizes and numbers of tests, ln ratio about 0 with an SD of 1. */
function draw(
  random: Random,
  design: readonly (readonly [size: number, count: number])[],
  correlation: number,
): { y: number[]; x: number[]; series: string[] } {
  const out = { y: [] as number[], x: [] as number[], series: [] as string[] };
  design.forEach(([size, count], j) => {
    const shift = Math.sqrt(correlation) * random.normal();
    for (let i = 0; i < count; i++) {
      out.y.push(shift + Math.sqrt(1 - correlation) * random.normal());
      out.x.push(size);
      out.series.push(`s${j}`);
    }
  });
  return out;
}

describe("lineBySeries", () => {
  it("is the matrices and noncentral t of line-by-series.py, with sizes that differ between series or within them", () => {
    close(
      lineBySeries({ y, x: logs(SAME.flat()), series, ...question }),
      [-0.35449686, -0.32397322, -0.34068757],
      5,
    );
    close(
      lineBySeries({ y, x: logs(MIXED.flat()), series, ...question }),
      [-0.30580976, -0.27168906, -0.25018095],
      5,
    );
  });
  it("with one test a series is the exact tolerance band of least squares, and so is the factor", () => {
    const alone = y.map((_, i) => String(i));
    const fit = leastSquares({ y, columns: { x: logs(MIXED.flat()) } });
    close(
      lineBySeries({ y, x: logs(MIXED.flat()), series: alone, ...question }),
      Array.from(
        fit.predict({ x: question.grid }, { fractile: 0.05, toleranceConfidence: 0.9 }).tolerance,
      ),
      9,
    );
    const [ratios, x] = [y.map((value) => 0.5 * Math.exp(value)), MIXED.flat()];
    const { assumptions: _, ...plain } = factorAlongVariable({ ratios, x });
    expect(factorAlongVariable({ ratios, x, series: alone })).toMatchObject(plain);
  });
  it("where the tests of a series are the same is the band of one test a series", () => {
    const random = createRandom("copies");
    const means = SIZES.flatMap((size) => [size, size]).map((size) => ({
      size,
      value: random.normal(),
    }));
    const copies = means.flatMap(({ size, value }, j) =>
      [-1, 0, 1].map((k) => ({ y: value + 1e-6 * k, x: Math.log(size), series: j })),
    );
    const found = lineBySeries({
      y: copies.map((one) => one.y),
      x: copies.map((one) => one.x),
      series: copies.map((one) => one.series),
      ...question,
    });
    close(
      found,
      lineBySeries({
        y: means.map(({ value }) => value),
        x: means.map(({ size }) => Math.log(size)),
        series: means.map((_, j) => j),
        ...question,
      }),
      9,
    );
    // Sizes that differ within such a series would give the slope without any error.
    expect(() =>
      lineBySeries({
        y: means.flatMap(({ value }) => [value, value]),
        x: means.flatMap((_, j) => [1, 2 + (j % 3)]),
        series: means.flatMap((_, j) => [j, j]),
        ...question,
      }),
    ).toThrow("check whether they are separate results");
  });
  it("where series do not differ lies below the band of independent tests, by little", () => {
    const { y: values, x } = draw(
      createRandom("alike"),
      SIZES.flatMap((size) => [[size, 20]] as const),
      0,
    );
    // Labels that alternate up the sorted values of a size make the means of the series nearly
    // equal.
    const order = values
      .map((_, i) => i)
      .sort((a, b) => (x[a] ?? NaN) - (x[b] ?? NaN) || (values[a] ?? NaN) - (values[b] ?? NaN));
    const labels: string[] = [];
    order.forEach(
      (row, place) => (labels[row] = `${x[row]} ${[0, 1, 2, 3, 3, 2, 1, 0][place % 8]}`),
    );
    const found = lineBySeries({ y: values, x: logs(x), series: labels, ...question });
    const plain = leastSquares({ y: values, columns: { x: logs(x) } }).predict(
      { x: question.grid },
      { fractile: 0.05, toleranceConfidence: 0.9 },
    ).tolerance;
    found.forEach((value, k) => {
      expect(value).toBeLessThan(plain[k] ?? NaN);
      expect(value).toBeGreaterThan((plain[k] ?? NaN) - 0.1);
    });
  });
  it("follows a line added to the values, and their unit", () => {
    const x = logs(SAME.flat());
    const found = lineBySeries({ y, x, series, ...question });
    close(
      lineBySeries({
        y: y.map((value, i) => 1000 * value + 7 - 3 * (x[i] ?? NaN)),
        x,
        series,
        ...question,
      }).map((value, k) => (value - 7 + 3 * (question.grid[k] ?? NaN)) / 1000),
      found,
      8,
    );
  });
  it("covers the true fractile of a further test of a further series in 90 % of samples, at both ends and between", () => {
    const designs = [
      [
        [10, 4],
        [10, 4],
        [16, 4],
        [16, 4],
        [25, 4],
        [25, 4],
      ],
      SIZES.flatMap((size) => [
        [size, 3],
        [size, 3],
      ]),
    ] as [number, number][][];
    for (const [design, correlation] of designs.flatMap(
      (one) =>
        [
          [one, 0.5],
          [one, 0.9],
        ] as const,
    )) {
      const random = createRandom(`band ${design.length} ${correlation}`);
      const held = [0, 0, 0];
      for (let sample = 0; sample < 250; sample++) {
        const { x, ...drawn } = draw(random, design, correlation);
        lineBySeries({ ...drawn, x: logs(x), ...question }).forEach(
          (value, k) => (held[k] = (held[k] ?? 0) + (value <= -Z ? 1 : 0)),
        );
      }
      // Binomial standard error 1.9 %. Residuals of the fitted line taken as a sample held 84 to 87
      // % here between the ends.
      for (const count of held) expect(Math.abs(count / 250 - 0.9)).toBeLessThan(0.057);
    }
  });
  it("refuses columns of different length and too few values", () => {
    expect(() => lineBySeries({ y: [1, 2], x: [1], series: [1, 2], ...question })).toThrow(
      "2 values, 1 of the variable and 2 names of series",
    );
    expect(() =>
      lineBySeries({ y: [1, 2, 3], x: [1, 1, 1], series: [1, 2, 3], ...question }),
    ).toThrow("3 values at 1 of the variable");
    expect(() =>
      lineBySeries({ y: [1, 2, 3], x: [1, 2, 3], series: [1, 2, 2], ...question }),
    ).toThrow("do not scatter");
  });
});

describe("factorAlongVariable, counted by series", () => {
  it("does not take a few series for a trend, where tests taken as independent do", () => {
    let [bySeries, byTests] = [0, 0];
    for (let sample = 0; sample < 12; sample++) {
      const {
        y: values,
        x,
        series: labels,
      } = draw(
        createRandom(`trend ${sample}`),
        SIZES.flatMap(
          (size) =>
            [
              [size, 3],
              [size, 3],
            ] as const,
        ),
        0.9,
      );
      const ratios = values.map((value) => 0.4 * Math.exp(0.1 * value));
      if ((factorAlongVariable({ ratios, x, series: labels }).p ?? 1) < 0.05) bySeries += 1;
      if ((factorAlongVariable({ ratios, x }).p ?? 1) < 0.05) byTests += 1;
    }
    // 5 % stated: 0.6 of 12 expected, standard error 0.8; taken as independent 3 to 4.
    expect(bySeries).toBeLessThanOrEqual(2);
    expect(byTests).toBeGreaterThanOrEqual(3);
  });
  it("has the trend of the mixed model of R's lme", () => {
    const ratios = y.map((value) => 0.5 * Math.exp(value));
    // R: summary(lme(y ~ log(x), random = ~ 1 | series))$tTable["log(x)", ], x the sizes of
    // line-by-series.py
    expect(factorAlongVariable({ ratios, x: SAME.flat(), series }).exponent).toBeCloseTo(
      0.01642558772,
      5,
    );
    expect(factorAlongVariable({ ratios, x: SAME.flat(), series }).p).toBeCloseTo(0.8858163066, 4);
  });
  it("says why there is no factor: two series, tests without one, or columns of different length", () => {
    const ratios = y.map((value) => 0.5 * Math.exp(value));
    const of = (labels: readonly string[]): string =>
      factorAlongVariable({ ratios, x: MIXED.flat(), series: labels }).reading;
    expectSaid(of(y.map((_, i) => (i < 7 ? "a" : "b"))), /no factor/i, "fewer than 3 series");
    expectSaid(of(["", ...series.slice(1)]), /no factor/i, "1 of 15 tests", "series");
    expect(() => factorAlongVariable({ ratios, x: MIXED.flat(), series: ["a"] })).toThrow(
      "15 ratios and 1 names of series",
    );
  });
});

describe("loweredBySeries, where some tests are lower bounds", () => {
  const along = {
    ratios: y.map(Math.exp),
    x: SAME.flat(),
    exponent: 0,
    grid: [10, 16, 25],
    fractile: 0.05,
    confidence: 0.9,
  };
  const bounds = y.map((_, i) => i % 5 === 4);
  const of = (input: Parameters<typeof loweredBySeries>[0]): number[] => {
    const found = loweredBySeries(input);
    if (typeof found === "string") throw new Error(found);
    return found;
  };
  it("lowers a band of one test a series by no more than the noise of the bootstrap", () => {
    const sd = 0.1;
    for (const value of of({ ...along, bounds, series: y.map((_, i) => String(i)) }))
      expect(value).toBeLessThan(0.3 * sd);
    for (const value of of({
      ...along,
      bounds: y.map(() => false),
      series: y.map((_, i) => String(i)),
    }))
      expect(value).toBeCloseTo(0, 9);
  });
  it("lowers more at the ends than between, and nearly as lineBySeries does where nothing is a lower bound", () => {
    const [low = NaN, middle = NaN, high = NaN] = of({ ...along, bounds, series });
    expect(middle).toBeGreaterThan(0);
    expect(Math.min(low, high)).toBeGreaterThan(middle);
    const fit = leastSquares({ y, columns: { x: logs(along.x) } });
    const plain = fit.predict(
      { x: question.grid },
      { fractile: 0.05, toleranceConfidence: 0.9 },
    ).tolerance;
    const lowered = of({
      ...along,
      exponent: fit.coefficient("x").estimate,
      bounds: y.map(() => false),
      series,
    });
    lineBySeries({ y, x: logs(along.x), series, ...question }).forEach((value, k) =>
      expect(Math.abs((plain[k] ?? NaN) - (lowered[k] ?? NaN) - value)).toBeLessThan(
        0.4 * fit.residualSd,
      ),
    );
  });
  it("tells why it cannot tell", () => {
    const reason = loweredBySeries({
      ...along,
      bounds,
      series: y.map((_, i) => (i < 7 ? "a" : "b")),
    });
    expectSaid(String(reason), "too few series");
  });
});
