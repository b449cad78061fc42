import { describe, expect, it } from "vitest";
import { homogeneityOfClasses, type ClassOfTests } from "../../../kernel-lib/src/proposals";
import { createRandom, type Random } from "../../../kernel-lib/src/statistics";

const tests = (
  ratios: readonly number[],
  lowerBounds: readonly number[] = [],
): ClassOfTests["tests"] => ratios.map((ratio, k) => ({ ratio, bound: lowerBounds.includes(k) }));
const [a, b] = [
  [1.02, 0.95, 1.1, 0.88, 1.05, 0.99],
  [0.91, 0.85, 1.0, 0.79, 0.97, 0.9, 0.83],
];

describe("homogeneityOfClasses, tests that name no series", () => {
  it("is R's Welch and Brown-Forsythe test on ln ratio, Holm-corrected", () => {
    const found = homogeneityOfClasses([
      { label: "a", tests: tests(a) },
      { label: "b", tests: tests(b) },
    ]);
    // R: oneway.test(log(x) ~ g)$p.value; anova(lm(abs(y - ave(y, g, FUN = median)) ~ g)) for the
    // variances
    expect(found.tests[0]?.p).toBeCloseTo(0.03077212141, 9);
    expect(found.tests[1]?.p).toBeCloseTo(0.7972355935, 9);
    expect(found.tests[0]?.pAdjusted).toBeCloseTo(2 * 0.03077212141, 9);
    expect(found.status).toBe("no significant difference");
  });
  it("with lower bounds is the likelihood ratio of R's survreg", () => {
    const found = homogeneityOfClasses([
      { label: "a", tests: tests(a, [2, 5]) },
      { label: "b", tests: tests(b, [2]) },
    ]);
    // R: survreg(Surv(x, failed) ~ 1, dist = "lognormal")$loglik[1], together and apart; pchisq(2 *
    // (apart - together), 2, lower.tail = FALSE)
    expect(found.tests).toHaveLength(1);
    expect(found.tests[0]?.p).toBeCloseTo(0.08831277811, 6);
  });
  it("finds what differs and calls equal classes different about as often as its level says", () => {
    const draw = (random: Random, n: number, mean: number, limit: number): ClassOfTests["tests"] =>
      Array.from({ length: n }, () => Math.exp(mean + 0.12 * random.normal())).map((ratio) => ({
        ratio: Math.min(ratio, limit),
        bound: ratio > limit,
      }));
    for (const limit of [Infinity, 1.1]) {
      let [alarms, found] = [0, 0];
      for (let seed = 0; seed < 300; seed++) {
        const random = createRandom(`homogeneity ${seed}`);
        const of = (mean: number): string =>
          homogeneityOfClasses([
            { label: "a", tests: draw(random, 20, 0, limit) },
            { label: "b", tests: draw(random, 20, mean, limit) },
          ]).status;
        if (of(0) === "differ") alarms += 1;
        if (of(-0.2) === "differ") found += 1;
      }
      // Level 5 %, binomial standard error 1.3 %; the large-sample form may be somewhat above.
      expect(alarms / 300).toBeLessThan(0.09);
      expect(found / 300).toBeGreaterThan(0.95);
    }
  });
  it("compares nothing with two failures, and refuses a single class", () => {
    expect(
      homogeneityOfClasses([
        { label: "a", tests: tests(a) },
        { label: "b", tests: tests([0.9, 1, 1.1], [2]) },
      ]),
    ).toMatchObject({
      status: "not compared",
      reading:
        "a and b were not compared and must not be pooled: fewer than 3 tests failed in the mode for b.",
    });
    expect(() => homogeneityOfClasses([{ label: "a", tests: [] }])).toThrow("expected at least 2");
  });
});
