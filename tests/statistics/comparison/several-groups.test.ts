import { describe, expect, it } from "vitest";
import {
  adjustPValues,
  analysisOfVariance,
  equalVariancesTest,
  equalVarianceTest,
  gamesHowellComparison,
  hedgesG,
  mannWhitney,
  tukeyComparison,
  welchAnalysisOfVariance,
  welchTest,
} from "../../../kernel-lib/src/statistics/comparison";
import { createRandom } from "../../../kernel-lib/src/statistics/random";
import { expectRelative } from "../closeness";
import { a, b, c, ok } from "./three-samples";

describe("several groups", () => {
  it("agree with R: anova(lm(y ~ g)), oneway.test, TukeyHSD, ptukey for Games-Howell, Levene by lm", () => {
    const classic = ok(analysisOfVariance({ a, b, c }));
    expectRelative(classic.f, 9.32287671232877, 1e-12);
    expectRelative(classic.p, 0.00428416374723731, 1e-11);
    expectRelative(classic.betweenSquares!, 257.791666666667, 1e-12);
    const welch = ok(welchAnalysisOfVariance({ a, b, c }));
    expectRelative(welch.f, 11.528256335939, 1e-12);
    expectRelative(welch.denominatorDegrees, 7.03947285086856, 1e-12);
    expectRelative(welch.p, 0.00601391700357569, 1e-11);
    const tukey = ok(tukeyComparison({ a, b, c }));
    const expected = [
      [-4.45833333333334, -10.940801623781807, 2.02413495711514, 0.19690059423318],
      [6.79166666666666, 0.309198376218193, 13.27413495711514, 0.0401304333],
      [11.25, 4.148811778018842, 18.35118822198116, 0.00341390493518],
    ] as const;
    tukey.pairs.forEach((pair, i) => {
      expectRelative(pair.difference, expected[i]![0], 1e-12);
      expectRelative(pair.lower, expected[i]![1], 1e-6); // R's qtukey is good to about 1e-8 of q
      expectRelative(pair.upper, expected[i]![2], 1e-6);
      expectRelative(pair.p, expected[i]![3], 1e-7);
    });
    expect(ok(gamesHowellComparison({ a, b, c })).pairs.map((pair) => pair.p.toFixed(7))).toEqual([
      "0.2042786",
      "0.0502928",
      "0.0059077",
    ]);
    expectRelative(ok(equalVariancesTest({ a, b, c })).p, 0.787932173721186, 1e-10);
    expectRelative(ok(equalVariancesTest({ a, b, c }, "mean")).p, 0.794673028037884, 1e-10);
  });
  it("have two groups as a special case of the t-tests", () => {
    expectRelative(ok(analysisOfVariance({ a, b })).p, ok(equalVarianceTest(a, b)).p, 1e-11);
    expectRelative(ok(welchAnalysisOfVariance({ a, b })).p, ok(welchTest(a, b)).p, 1e-11);
    expectRelative(ok(gamesHowellComparison({ a, b })).pairs[0]!.p, ok(welchTest(a, b)).p, 1e-8);
  });
  it("keep digits under a large offset, as NIST's SmLs07 asks", () => {
    const shift = (values: number[]): number[] => values.map((value) => value + 1e9);
    expectRelative(
      ok(analysisOfVariance({ a: shift(a), b: shift(b), c: shift(c) })).f,
      9.32287671232877,
      1e-12,
    );
  });
  it("exclude small groups and name what they cannot estimate", () => {
    expect(tukeyComparison({ a, b: [1] })).toMatchObject({
      status: "cannot be estimated",
      reason: "too few groups",
    });
    expect(ok(welchAnalysisOfVariance({ a, b, x: [1] })).excluded).toEqual([
      { count: 1, reason: "group of fewer than 2 values" },
    ]);
    expect(analysisOfVariance({ a: [1, 1], b: [1, 1] })).toMatchObject({ reason: "no spread" });
    expect(welchAnalysisOfVariance({ a, b: [1, 1] })).toMatchObject({ reason: "no spread" });
  });
  it("never deny a difference in their readings", () => {
    const random = createRandom("readings");
    for (let i = 0; i < 40; i++) {
      const make = (): number[] => Array.from({ length: 4 }, () => 50 + 4 * random.normal());
      const samples = { a: make(), b: make(), c: make() };
      for (const result of [
        analysisOfVariance(samples),
        tukeyComparison(samples),
        gamesHowellComparison(samples),
        mannWhitney(samples.a, samples.b),
        hedgesG(samples.a, samples.b),
      ]) {
        expect(result.reading.replace("This does not show that they are equal.", "")).not.toMatch(
          /no difference|NaN|undefined|are (equal|the same)\b/i,
        );
      }
    }
  });
});

describe("adjusted p-values", () => {
  it('agree with R: p.adjust(c(.01, .04, .03, .005, .2), "holm" and "BH")', () => {
    const p = [0.01, 0.04, 0.03, 0.005, 0.2];
    adjustPValues(p).forEach((value, i) =>
      expectRelative(value, [0.04, 0.09, 0.09, 0.025, 0.2][i]!, 1e-14),
    );
    adjustPValues(p, "benjamini-hochberg").forEach((value, i) =>
      expectRelative(value, [0.025, 0.05, 0.05, 0.025, 0.2][i]!, 1e-14),
    );
    expect(adjustPValues([0.01, NaN, 0.02])).toEqual([0.02, NaN, 0.02]);
    expect(() => adjustPValues([1.2])).toThrow(
      "adjustPValues: p-value 0 is 1.2, expected a number from 0 to 1",
    );
  });
});
