import { describe, expect, it } from "vitest";
import { distributionOfCode } from "../../../kernel-lib/src/comparison/judging/question";
import { CODES } from "../../../kernel-lib/src/provisions";
import { createRandom, shapiroWilk } from "../../../kernel-lib/src/statistics";
import { group, judged, randomSeries } from "./sample-groups";
import { expectSaid } from "../../says";

describe("the distribution of a code's family", () => {
  it("is lognormal for EN 1990's codes and the fib model codes, normal for the others", () => {
    for (const { id } of CODES)
      expect(distributionOfCode({ id }), id).toBe(
        id.startsWith("en19") || id.startsWith("fib-") ? "lognormal" : "normal",
      );
    expect(new Set(CODES.map(distributionOfCode))).toEqual(new Set(["normal", "lognormal"]));
  });
});

describe("the other distribution", () => {
  it("is given where, and only where, its verdict differs, with its bounds in the reason", () => {
    const random = createRandom("both distributions");
    let [same, other] = [0, 0];
    for (let s = 0; s < 60; s += 1) {
      const tests = group(
        ...randomSeries(random, 6, { mean: 1.4 + 0.5 * random.uniform(), cov: 0.2, icc: 0.4 }),
      );
      const [normal, lognormal] = (["normal", "lognormal"] as const).map(
        (distribution) => judged(tests, { question: { distribution } }).inGeneral,
      );
      const differs = normal!.verdict !== lognormal!.verdict;
      expect(normal!.otherDistribution?.verdict ?? normal!.verdict).toBe(lognormal!.verdict);
      expect(normal!.otherDistribution === null).toBe(!differs);
      if (differs) {
        other += 1;
        expect(normal!.otherDistribution).toMatchObject({
          distribution: "lognormal",
          lower: lognormal!.lower,
          upper: lognormal!.upper,
        });
        expectSaid(
          normal!.reason,
          new RegExp(`lognormal distribution.*${lognormal!.verdict}`),
          `${lognormal!.lower!.toFixed(3)} to ${lognormal!.upper!.toFixed(3)}`,
        );
        expectSaid(lognormal!.reason, new RegExp(` normal distribution.*${normal!.verdict}`));
      } else {
        same += 1;
        expect(normal!.reason).not.toMatch(/(lognormal|normal) distribution/);
      }
    }
    expect(same).toBeGreaterThan(3);
    expect(other).toBeGreaterThan(3);
  });
  it("has the fit of the residuals beside it, by Shapiro and Wilk's test of ratios and of their logarithms", () => {
    const tests = group([1.2, 1.3, 1.25], [1.4, 1.5, 1.35], [1.1, 1.25, 1.6]);
    const { residualFit } = judged(tests).inGeneral;
    // One cell: residuals are the ratios over one geometric mean, and the test does not depend on
    // scale.
    const p = (values: readonly number[]): number => {
      const found = shapiroWilk(values);
      return found.status === "ok" ? found.p : NaN;
    };
    expect(residualFit.normal).toBeCloseTo(p(tests.map(({ ratio }) => ratio)), 9);
    expect(residualFit.lognormal).toBeCloseTo(p(tests.map(({ ratio }) => Math.log(ratio))), 9);
  });
});
