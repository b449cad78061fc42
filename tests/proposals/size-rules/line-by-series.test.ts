import { describe, expect, it } from "vitest";
import { factorAlongVariable } from "../../../kernel-lib/src/proposals/size-rules";
import { leastSquares } from "../../../kernel-lib/src/regression";
import { createRandom, lineBySeries } from "../../../kernel-lib/src/statistics";
import { draw, logs, MIXED, question, SAME, series, SIZES, y } from "./invented-series";

const Z = 1.6448536269514722;

const close = (found: readonly number[], expected: readonly number[], digits: number): void =>
  expected.forEach((value, k) => expect(found[k]).toBeCloseTo(value, digits));

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
    ).toThrow("no scatter");
  });
});
