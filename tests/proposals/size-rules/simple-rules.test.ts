import { describe, expect, it } from "vitest";
import { evaluateConstant, parseFormula } from "../../../kernel-lib/src/formula";
import {
  factorAlongVariable,
  lineBelow,
  simpleRules,
} from "../../../kernel-lib/src/proposals/size-rules";
import { createRandom } from "../../../kernel-lib/src/statistics";
import { expectSaid } from "../../says";

const sizes = [10, 12, 16, 20, 25];
function sample(seed: number, exponent = -0.4, each = 8): { ratios: number[]; x: number[] } {
  const random = createRandom(seed);
  const x = sizes.flatMap((size) => Array.from({ length: each }, () => size));
  return {
    x,
    ratios: x.map((size) => 1.1 * (size / 10) ** exponent * Math.exp(0.08 * random.normal())),
  };
}

describe("simpleRules", () => {
  it("never exceed the required factor, are what their formula says, and cost what is left", () => {
    for (let seed = 0; seed < 30; seed++) {
      const along = factorAlongVariable(sample(seed, -0.6 + 0.03 * seed));
      const rules = simpleRules(along, "d");
      expect(rules.map(({ kind }) => kind).sort()).toEqual([
        "constant",
        "linear",
        "power",
        "two-step",
      ]);
      for (const rule of rules) {
        along.x.forEach((x, k) => {
          expect(rule.at(x)).toBeLessThanOrEqual((along.required[k] ?? NaN) + 1e-9);
          expect(rule.at(x)).toBeLessThanOrEqual(1);
        });
        for (const size of sizes)
          expect(
            evaluateConstant(parseFormula(rule.formula.replaceAll(/\bd\b/g, String(size)))),
          ).toBeCloseTo(rule.at(size), 12);
        expect(rule.meanCost).toBeGreaterThanOrEqual(-1e-9);
        expect(rule.largestCost).toBeGreaterThanOrEqual(rule.meanCost - 1e-12);
      }
      const cost = (kind: string): number =>
        rules.find((rule) => rule.kind === kind)?.meanCost ?? NaN;
      expect(cost("two-step")).toBeLessThanOrEqual(cost("constant") + 1e-12);
    }
  });
  it("the band covers the true 5 % fractile at the smallest size in about 90 % of 100 samples", () => {
    const truth = 1.1 * Math.exp(-0.08 * 1.6448536269514722);
    let held = 0;
    for (let seed = 0; seed < 100; seed++) {
      const { ratios, x } = sample(1000 + seed);
      // Halved ratios keep the band away from its cap at 1.
      if (
        (factorAlongVariable({ ratios: ratios.map((value) => value / 2), x }).required[0] ?? NaN) <=
        truth / 2
      )
        held += 1;
    }
    // Binomial standard error 3 %.
    expect(Math.abs(held / 100 - 0.9)).toBeLessThan(0.09);
  });
  it("with lower bounds: a bound that tells nothing moves the band by no more than its own noise", () => {
    const { ratios, x } = sample(11);
    const exact = factorAlongVariable({ ratios, x });
    const bounded = factorAlongVariable({
      ratios: [...ratios, 0.01],
      x: [...x, 16],
      lowerBounds: [...ratios.map(() => false), true],
    });
    expect(bounded).toMatchObject({ n: 40, nCensored: 1, status: "derived" });
    exact.required.forEach((value, k) =>
      expect(Math.abs((bounded.required[k] ?? NaN) / value - 1)).toBeLessThan(0.01),
    );
  });
  it("with a quarter of the tests stopped by the grip, the band still covers the true fractile in about 90 % of 150 samples", () => {
    const truth = 0.55 * 2.5 ** -0.4 * Math.exp(-0.08 * 1.6448536269514722);
    let held = 0;
    for (let seed = 0; seed < 150; seed++) {
      const { ratios, x } = sample(5000 + seed);
      const random = createRandom(`grip ${seed}`);
      const limit = x.map(
        (size) => 0.55 * (size / 10) ** -0.4 * Math.exp(0.05 + 0.08 * random.normal()),
      );
      const loads = ratios.map((value, k) => Math.min(value / 2, limit[k] ?? NaN));
      const lowerBounds = loads.map((value, k) => value === limit[k]);
      if (
        (factorAlongVariable({ ratios: loads, x, lowerBounds, resamples: 199 }).required[200] ??
          NaN) <= truth
      )
        held += 1;
    }
    // Binomial standard error 2.4 %.
    expect(Math.abs(held / 150 - 0.9)).toBeLessThan(0.075);
  });
  it("derives nothing from too few tests or sizes, with the reason", () => {
    const few = factorAlongVariable({
      ratios: [1, 0.9, 0.8, 1, 1.1, 0.9, 0.8, 1],
      x: [10, 10, 10, 10, 20, 20, 20, 20],
    });
    expectSaid(few.reading, "8 tests at 2 values", "8 tests at 3 values");
    expect(simpleRules(few, "d")).toEqual([]);
    expect(factorAlongVariable({ ratios: [1, 1, 1], x: [1, 2, 3] }).status).toBe("not derived");
    expect(() => factorAlongVariable({ ratios: [1], x: [] })).toThrow("1 ratios and 0 values");
  });
  it("says when there is no trend", () => {
    expectSaid(factorAlongVariable(sample(5, 0)).warnings.join(), "constant");
  });
});

describe("lineBelow", () => {
  it("touches a convex curve in the edge over the place wanted", () => {
    expect(lineBelow([0, 1, 2, 3], [4, 1, 0, 0], 0.5)).toEqual({ intercept: 4, slope: -3 });
    expect(lineBelow([0, 1, 2], [0, 5, 0], 1)).toEqual({ intercept: 0, slope: 0 });
  });
});
