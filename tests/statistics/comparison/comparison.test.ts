import { describe, expect, it } from "vitest";
import {
  equalVarianceTest,
  equivalenceTest,
  hedgesG,
  mannWhitney,
  minimumDetectableDifference,
  powerOfTTest,
  ratioOfMeans,
  sampleSizeForDifference,
  welchTest,
} from "../../../kernel-lib/src/statistics/comparison";
import { permutationTest } from "../../../kernel-lib/src/statistics/resampling";
import { createRandom } from "../../../kernel-lib/src/statistics/random";
import { expectRelative } from "../closeness";
import { bruteForceMeanP, bruteForceRankP } from "./all-arrangements";
import { a, b, c, ok } from "./three-samples";

describe("t-tests", () => {
  it("agree with R: t.test(b, a) and t.test(b, a, var.equal = TRUE)", () => {
    const welch = ok(welchTest(a, b));
    expectRelative(welch.t, -1.89145153273715, 1e-12);
    expectRelative(welch.degreesOfFreedom, 7.79867743164703, 1e-12);
    expectRelative(welch.p, 0.0961620777338859, 1e-11);
    expectRelative(welch.lower, -9.91832817360901, 1e-11);
    expectRelative(welch.upper, 1.00166150694233, 1e-10);
    expectRelative(ok(equalVarianceTest(a, b)).p, 0.114153915830129, 1e-11);
  });
  it("have a ratio interval that holds 1 exactly when p is above the level", () => {
    const random = createRandom("duality");
    for (let i = 0; i < 300; i++) {
      const x = Array.from({ length: 5 }, () => 40 + 6 * random.normal());
      const y = Array.from({ length: 4 }, () => 44 + 3 * random.normal());
      const test = ok(welchTest(x, y));
      const { lower, upper } = test.ratioInterval!;
      expect(lower! < 1 && upper! > 1).toBe(test.p > 0.05);
      expect(test.lower < 0 && test.upper > 0).toBe(test.p > 0.05);
    }
  });
  it("word every outcome without ever denying a difference", () => {
    const names = { quantity: "mean pull-out load", nameA: "steel", nameB: "glass" };
    expect(welchTest(a, b, names).reading).toMatch(
      /^No significant difference in mean pull-out load was found \(Welch t, p = 0\.096; 95 % CI −\d+ to \+[\d.]+ %\)\. This does not show that steel and glass are equal\.$/,
    );
    expect(welchTest(b, c, names).reading).toMatch(
      /^The mean pull-out load of glass is \d+ % higher than that of steel \(95 % CI \d+ to \d+ %; Welch t, p = [\d.]+\)\.$/,
    );
    expect(welchTest(c, b, names).reading).toContain("% lower than");
    expect(welchTest([1, -1, 2], [-13, -12, -12.5], names).reading).toContain(
      "CI of the difference",
    );
    for (const reading of [
      welchTest(a, b).reading,
      welchTest([1], [2]).reading,
      welchTest([2, 2], [2, 2]).reading,
      welchTest([], []).reading,
    ]) {
      expect(reading).not.toMatch(/no difference|NaN|undefined|no effect/i);
    }
    expect(welchTest([1], [2, 3])).toMatchObject({
      status: "cannot be estimated",
      reason: "too few values",
    });
    expect(welchTest([2, 2], [2, 2])).toMatchObject({
      status: "cannot be estimated",
      reason: "no spread",
    });
    expect(() => welchTest(a, b, { confidence: 95 })).toThrow(/confidence is 95/);
  });
  it("give the mirror image when the samples change places", () => {
    const there = ok(welchTest(a, b));
    const back = ok(welchTest(b, a));
    expectRelative(there.p, back.p, 1e-14);
    expectRelative(there.difference, -back.difference, 1e-14);
  });
});

describe("rank and permutation tests", () => {
  it("agree with R: wilcox.test(b, a, exact = TRUE), and with counting where there are ties", () => {
    const test = ok(mannWhitney(a, b));
    expectRelative(test.p, 0.171428571428571, 1e-12);
    expect(test.u).toBe(5);
    // With ties R falls back on an approximation; the exact conditional p by counting all 210
    // arrangements by hand below.
    const tied = [40, 39, 37, 44];
    const exact = ok(mannWhitney(a, tied));
    expect(exact.u).toBe(4.5);
    expectRelative(exact.p, bruteForceRankP(a, tied), 1e-12);
  });
  it("count all arrangements where they can", () => {
    const values = [...a, ...b];
    const groups = values.map((_, i) => (i < a.length ? "a" : "b"));
    const test = permutationTest({ values, groups, seed: 1 });
    expect(test.exact).toBe(true);
    expect(test.arrangements).toBe(210);
    expectRelative(test.p, bruteForceMeanP(a, b), 1e-14);
  });
  it("say when the samples are too small for any outcome to tell", () => {
    expect(mannWhitney([1, 2], [3, 4]).reading).toContain("no outcome could");
    expect(mannWhitney([1], [2]).status).toBe("cannot be estimated");
  });
});

describe("effect size, equivalence, power", () => {
  it('equivalence agrees with statsmodels: ttost_ind(b, a, -12, 2, usevar = "unequal") for b = 40, 39, 37, 44', () => {
    const test = ok(equivalenceTest(a, [40, 39, 37, 44], { differenceFrom: -12, differenceTo: 2 }));
    expectRelative(test.pLower, 0.005905585064475778, 1e-10);
    expectRelative(test.pUpper, 0.010253596018929723, 1e-10);
    expect(test.equivalent).toBe(true);
    expect(equivalenceTest(a, b, { ratioFrom: 0.95, ratioTo: 1.05 }).reading).toContain(
      "Equivalence was not shown",
    );
    expect(() => equivalenceTest(a, b, { ratioFrom: 1.1, ratioTo: 0.9 })).toThrow(RangeError);
  });
  it("of a ratio agrees, as does the interval, with R: uniroot of pt((m_B - th m_A)/sqrt(v_B + th^2 v_A), nu(th), lower.tail = FALSE), nu by Satterthwaite's formula at th", () => {
    const [x, y] = [
      [41, 48, 50, 43, 39, 46.5],
      [40, 39, 37, 44],
    ];
    for (const [confidence, lower, upper] of [
      [0.9, 0.81105691653809, 0.99203642771117],
      [0.95, 0.79091259790073, 1.01645830636796],
    ] as const) {
      const found = ok(ratioOfMeans(x, y, { confidence }));
      expectRelative(found.lower, lower, 1e-9);
      expectRelative(found.upper, upper, 1e-9);
    }
    const test = ok(equivalenceTest(x, y, { ratioFrom: 0.8, ratioTo: 1.05 }));
    expectRelative(test.pLower, 0.0342214348287292, 1e-10);
    expectRelative(test.pUpper, 0.0099603275725568, 1e-10);
  });
  it("power agrees with R: power.t.test(n, delta, sd, strict = TRUE)", () => {
    expectRelative(powerOfTTest({ nA: 5, nB: 5, difference: 8, sd: 4 }), 0.790542377972668, 1e-9);
    expectRelative(powerOfTTest({ nA: 20, nB: 20, difference: 1, sd: 1 }), 0.868953027724586, 1e-9);
    expect(sampleSizeForDifference({ difference: 1, sd: 1, power: 0.9 })).toBe(23); // R: 22.02 a group
    // R: uniroot's tolerance within power.t.test is 1.2e-4.
    expectRelative(minimumDetectableDifference({ nA: 5, nB: 5, sd: 4 }), 8.09773748379086, 1e-5);
    expectRelative(
      powerOfTTest({
        nA: 5,
        nB: 5,
        difference: minimumDetectableDifference({ nA: 5, nB: 5, sd: 4 }),
        sd: 4,
      }),
      0.8,
      1e-10,
    );
    expectRelative(powerOfTTest({ nA: 4, nB: 9, difference: 0, sd: 2 }), 0.05, 1e-9);
    expect(() => sampleSizeForDifference({ difference: 0, sd: 1 })).toThrow(/other than zero/);
  });
  it("power is what simulation gives", () => {
    const random = createRandom("power");
    let found = 0;
    for (let i = 0; i < 2000; i++) {
      const x = Array.from({ length: 5 }, () => random.normal());
      const y = Array.from({ length: 5 }, () => random.normal() + 2);
      if (ok(equalVarianceTest(x, y)).p < 0.05) found += 1;
    }
    expect(
      Math.abs(found / 2000 - powerOfTTest({ nA: 5, nB: 5, difference: 2, sd: 1 })),
    ).toBeLessThan(0.04);
  });
  it("Hedges' g is the pooled difference with its small-sample correction", () => {
    const g = ok(hedgesG(a, b));
    const t = ok(equalVarianceTest(a, b)).t;
    // J ≈ 1 − 3/(4ν − 1) (Hedges 1981), good to 0.1 % at ν = 8.
    expectRelative(g.g, t * Math.sqrt(1 / 6 + 1 / 4) * (1 - 3 / 31), 2e-3);
    expect(g.lower).toBeLessThan(g.g);
    expect(g.upper).toBeGreaterThan(g.g);
    expect(g.lower < 0 && g.upper > 0).toBe(ok(equalVarianceTest(a, b)).p > 0.05);
  });
  it("ratios have Fieller and bootstrap intervals, and none where the reference is near zero", () => {
    const fieller = ok(ratioOfMeans(a, b));
    expectRelative(fieller.ratio, 40.125 / (267.5 / 6), 1e-13);
    const boot = ok(ratioOfMeans(a, b, { interval: "bootstrap", seed: 4 }));
    expect(boot).toEqual(ratioOfMeans(a, b, { interval: "bootstrap", seed: 4 }));
    expect(Math.abs(boot.lower - fieller.lower)).toBeLessThan(0.08);
    expect(ratioOfMeans([0.1, 5, -4.9], [1, 2, 3])).toMatchObject({
      status: "cannot be estimated",
      reason: "mean too close to zero",
    });
    expect(ratioOfMeans([-1, -2], [1, 2])).toMatchObject({
      status: "cannot be estimated",
      reason: "values not positive",
    });
  });
});
