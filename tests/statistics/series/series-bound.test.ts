import { describe, expect, it } from "vitest";
import {
  boundByAnalysisOfVariance,
  characteristicBySeries,
  characteristicCensored,
  characteristicValue,
  createRandom,
} from "../../../kernel-lib/src/statistics";
import { normalNodes } from "../../../kernel-lib/src/statistics/series/normal-nodes";

/**
 * The composite materials handbook's worked example, CMH-17-1G section 8.3.11.1.1 (condition ETW2):
 * three batches.
 */
const BATCHES = [
  [99.0239966, 103.341238, 100.30213, 98.4634133, 92.264728, 103.487693, 113.734763],
  [108.172659, 108.426732, 116.260375, 121.04961, 111.223082, 104.574843, 103.222552],
  [99.3918538, 87.3421658, 102.730741, 96.3694916, 99.5946088, 97.0712407],
];
const MORE = [
  [10.1, 10.9, 9.4],
  [12, 11.2, 11.8, 12.5],
  [9, 9.9],
  [10.4, 11.3, 10.8, 9.7, 10.2],
  [8.6, 9.3, 8.9],
  [11, 10.1],
  [12.9, 12.2, 13.1, 12.4],
];

const named = (groups: readonly (readonly number[])[]): number[] =>
  groups.flatMap((group, i) => group.map(() => i));
const bound = (
  groups: readonly (readonly number[])[],
  limit = Infinity,
  question: object = {},
  clusters: readonly (string | number)[] = named(groups),
) =>
  characteristicBySeries({
    values: groups.flat().map((y) => Math.min(y, limit)),
    censored: groups.flat().map((y) => y >= limit),
    clusters,
    ...question,
  });
const of = (found: ReturnType<typeof bound>): number =>
  found.status === "ok" ? found.characteristic : NaN;

describe("boundByAnalysisOfVariance", () => {
  it("is the handbook's worked example: 63.2 for 10 % and 34.6 for 1 % at 95 % confidence", () => {
    for (const [fractile, printed] of [
      [0.1, 63.2],
      [0.01, 34.6],
    ] as const) {
      const found = boundByAnalysisOfVariance({
        values: BATCHES.flat(),
        series: named(BATCHES),
        fractile,
        confidence: 0.95,
      });
      expect(found).toMatchObject({ status: "ok", n: 20, layout: { series: 3 } });
      expect(found.status === "ok" ? found.value : NaN).toBeCloseTo(printed, 1);
    }
  });
  it("has the mean squares of R's anova, and the ordinary factor for one value a series", () => {
    const found = boundByAnalysisOfVariance({ values: MORE.flat(), series: named(MORE) });
    // R: anova(lm(y ~ g)): mean squares 5.7266 and 0.3156
    expect(found.status === "ok" ? found.layout.meanSquareBetween : NaN).toBeCloseTo(5.7266, 4);
    expect(found.status === "ok" ? found.layout.meanSquareWithin : NaN).toBeCloseTo(0.3156, 4);
    const alone = boundByAnalysisOfVariance({
      values: MORE.flat(),
      series: MORE.flat().map((_, i) => i),
    });
    const ordinary = characteristicValue(MORE.flat());
    expect(alone.status === "ok" ? alone.value : NaN).toBeCloseTo(
      ordinary.status === "ok" ? ordinary.value : NaN,
      10,
    );
  });
  it("estimates nothing from two series, or from equal values", () => {
    expect(boundByAnalysisOfVariance({ values: [1, 2, 3, 4], series: [1, 1, 2, 2] })).toMatchObject(
      { status: "cannot be estimated", reason: "too few series" },
    );
    expect(boundByAnalysisOfVariance({ values: [2, 2, 2], series: [1, 2, 3] })).toMatchObject({
      status: "cannot be estimated",
      reason: "no spread",
    });
    expect(() => boundByAnalysisOfVariance({ values: [1, 2], series: [1] })).toThrow(
      "2 values and 1 names of series",
    );
  });
});

describe("characteristicBySeries", () => {
  it("has R's restricted maximum likelihood", () => {
    // R: lme(y ~ 1, random = ~ 1 | g, method = "REML"): share between, sqrt of the sum of
    // variances, mean
    const found = bound(MORE);
    expect(found).toMatchObject({ status: "ok", series: 7, failures: 23 });
    if (found.status !== "ok") return;
    expect(found.correlation).toBeCloseTo(0.8362208, 5);
    expect(found.sd).toBeCloseTo(1.386518, 5);
    expect(found.mean).toBeCloseTo(10.59372, 5);
  });
  it("agrees with noncentral t mixed by adaptive quadrature (series-bound.py, scipy)", () => {
    for (const [groups, fractile, confidence, value] of [
      [MORE, 0.05, 0.9, 6.704026],
      [MORE, 0.1, 0.95, 6.914223],
      [BATCHES, 0.1, 0.95, 60.644616],
    ] as const)
      expect(
        Math.abs(of(bound(groups, Infinity, { fractile, confidence })) / value - 1),
      ).toBeLessThan(2e-4);
  });
  it("of series whose tests are all but equal is that of one test a series, with a warning, however near they are", () => {
    const means = Array.from({ length: 10 }, (_, i) => Math.sin(5 * i) + 10);
    const plain = characteristicValue(means);
    const expected = plain.status === "ok" ? plain.value : NaN;
    for (const apart of [0, 1e-6, 1e-3, 0.02]) {
      const found = bound(means.map((mean) => [mean - apart, mean, mean + apart]));
      expect(Math.abs(of(found) - expected)).toBeLessThan(0.004);
      if (apart < 0.01)
        expect(found).toMatchObject({
          correlation: 1,
          effectiveTests: expect.closeTo(10, 9) as unknown,
          warnings: [
            "The tests of a series are almost equal and are effectively one test: check whether one result is entered several times",
          ],
        });
    }
    // A lower bound beside a failure of its series says nothing more, and of several alone the
    // highest is what counts.
    const values = means.flatMap((mean) => [mean, mean]);
    const labels = means.flatMap((_, j) => [j, j]);
    const limited = (limits: readonly number[]): number =>
      of(
        characteristicBySeries({
          values: [...values, 12, ...limits],
          censored: [...values.map(() => false), true, ...limits.map(() => true)],
          clusters: [...labels, 0, ...limits.map(() => 99)],
        }),
      );
    expect(limited([])).toBeCloseTo(expected, 9);
    expect(limited([9, 9.5, 10])).toBeCloseTo(limited([10]), 6);
  });
  it("with lower bounds is near the whole grid of mean, scatter and correlation (series-bound.py), and not above it", () => {
    // The equivalent sample is an approximation there: within 0.06 SD of the brute force, on the
    // safe side of it.
    for (const [limit, value] of [
      [11.5, 6.261694],
      [10.5, 6.540893],
    ] as const) {
      expect(of(bound(MORE, limit))).toBeLessThan(value);
      expect(of(bound(MORE, limit))).toBeGreaterThan(value - 0.07);
    }
  });
  it("is the ordinary factor where each series has one test, and near the bootstrap of the pivot with lower bounds", () => {
    const alone = MORE.flat().map((_, i) => i);
    for (const distribution of ["normal", "lognormal"] as const) {
      const ordinary = characteristicValue(MORE.flat(), { distribution });
      expect(of(bound(MORE, Infinity, { distribution }, alone))).toBeCloseTo(
        ordinary.status === "ok" ? ordinary.value : NaN,
        7,
      );
    }
    const pivot = characteristicCensored({
      values: MORE.flat().map((y) => Math.min(y, 11.5)),
      censored: MORE.flat().map((y) => y >= 11.5),
      distribution: "normal",
      seed: 1,
    });
    expect(
      Math.abs(
        of(bound(MORE, 11.5, {}, alone)) - (pivot.status === "ok" ? pivot.characteristic : NaN),
      ),
    ).toBeLessThan(0.15);
  });
  it("does not hang on the names or the order of series, nor on the unit", () => {
    for (const limit of [Infinity, 11.5]) {
      const first = of(bound(MORE, limit));
      expect(of(bound([...MORE].reverse(), limit))).toBeCloseTo(first, 6);
      expect(
        of(
          bound(
            MORE,
            limit,
            {},
            named(MORE).map((i) => `series ${(5 * i) % 7}`),
          ),
        ),
      ).toBeCloseTo(first, 6);
      expect(
        of(
          bound(
            MORE.map((group) => group.map((y) => 1000 * y + 7e4)),
            1000 * limit + 7e4,
          ),
        ),
      ).toBeCloseTo(1000 * first + 7e4, 2);
      expect(
        of(
          bound(
            MORE.map((group) => group.map((y) => 3 * y)),
            3 * limit,
            { distribution: "lognormal" },
          ),
        ),
      ).toBeCloseTo(3 * of(bound(MORE, limit, { distribution: "lognormal" })), 5);
    }
  });
  it("does not take more tests of the same series for more series", () => {
    // Tests repeated ten times over: alike within their series, which stay seven. Means of the
    // series taken alone give the least that could be known of them.
    const many = MORE.map((group) => Array.from({ length: 10 }, () => group).flat());
    const means = MORE.map((group) => group.reduce((sum, y) => sum + y, 0) / group.length);
    const ofMeans = characteristicValue(means);
    const ofAll = characteristicValue(many.flat());
    const found = bound(many);
    expect(found.status === "ok" ? found.effectiveTests : NaN).toBeLessThan(7 / 0.7);
    expect(of(found)).toBeLessThan((ofMeans.status === "ok" ? ofMeans.value : NaN) + 0.35);
    expect(of(found)).toBeLessThan((ofAll.status === "ok" ? ofAll.value : NaN) - 1);
  });
  it("a lower bound far below all else changes nothing", () => {
    const values = [...MORE.flat(), 1];
    const more = characteristicBySeries({
      values,
      censored: values.map((y) => y === 1),
      clusters: [...named(MORE), 0],
    });
    expect(of(more)).toBeCloseTo(of(bound(MORE)), 4);
  });
  it("says what is missing", () => {
    expect(bound(MORE.slice(0, 2))).toMatchObject({
      status: "cannot be estimated",
      reason: "too few series",
      needed:
        "at least 3 series with a failure in this mode, to tell a scatter between series (there are 2)",
    });
    // Five series, but only two in which the mode was reached.
    expect(
      bound(
        [
          [1, 1.1],
          [1.2, 1.3],
          [9, 9],
          [9, 9],
          [9, 9],
        ],
        5,
      ),
    ).toMatchObject({
      status: "cannot be estimated",
      reason: "too few series",
      needed:
        "at least 3 series with a failure in this mode, to tell a scatter between series (there are 2)",
    });
    expect(bound([[2], [2], [2]])).toMatchObject({
      status: "cannot be estimated",
      reason: "no spread",
    });
    expect(bound([[9], [9], [9]], 5)).toMatchObject({
      status: "cannot be estimated",
      reason: "nothing failed",
    });
    expect(bound([[-1], [2], [3]], Infinity, { distribution: "lognormal" })).toMatchObject({
      status: "cannot be estimated",
      reason: "values not positive",
    });
    expect(() => bound(MORE, Infinity, { fractile: 1.2 })).toThrow("fractile is 1.2");
    expect(() =>
      characteristicBySeries({ values: [1, 2], censored: [false], clusters: [1, 2] }),
    ).toThrow("Censoring flags");
    const aside = characteristicBySeries({
      values: [...MORE.flat(), NaN, 3],
      censored: [...MORE.flat(), 0, 0].map(() => false),
      clusters: [...named(MORE).map(String), "7", ""],
    });
    expect(aside).toMatchObject({ status: "ok", n: 23, excluded: [{ row: 23 }, { row: 24 }] });
  });
  it("holds its confidence: 90 % within three standard errors of 300 samples, with and without lower bounds", () => {
    const random = createRandom("coverage by series");
    const z = 1.6448536269514722;
    for (const limitSd of [Infinity, 1]) {
      let held = 0;
      for (let s = 0; s < 300; s += 1) {
        const groups = [3, 4, 5, 6, 3, 4, 5, 6, 3, 4].map((n) => {
          const shift = Math.sqrt(0.5) * random.normal();
          return Array.from({ length: n }, () => shift + Math.sqrt(0.5) * random.normal());
        });
        if (of(bound(groups, limitSd)) <= -z) held += 1;
      }
      expect(held / 300).toBeGreaterThan(0.9 - 3 * Math.sqrt(0.09 / 300));
      expect(held / 300).toBeLessThan(0.9 + 3 * Math.sqrt(0.09 / 300));
    }
  });
});

describe("normalNodes", () => {
  it("has the moments of the normal law, and the mean of a step of its width", () => {
    for (const width of [10, 0.5, 0.1]) {
      const { nodes, logWeights } = normalNodes(width);
      const mean = (f: (x: number) => number): number =>
        nodes.reduce((sum, x, i) => sum + Math.exp(logWeights[i] ?? NaN) * f(x), 0);
      expect(mean(() => 1)).toBeCloseTo(1, 12);
      expect(mean((x) => x ** 4)).toBeCloseTo(3, 6);
      // E 1/(1 + exp(-x/w)) is 1/2 by symmetry; a bell of that width: E exp(-x²/(2w²)) = w/√(1 +
      // w²)
      expect(mean((x) => Math.exp(-(x * x) / (2 * width * width)))).toBeCloseTo(
        width / Math.hypot(1, width),
        6,
      );
    }
  });
});
