import { describe, expect, it } from "vitest";
import type { GroupTest } from "../../../kernel-lib/src/comparison/judging/tests-of-group";
import { toleranceFactor, createRandom } from "../../../kernel-lib/src/statistics";
import { bySeries, group, judged, randomSeries } from "./sample-groups";
import { expectSaid } from "../../says";

const failedSeries = (tests: readonly GroupTest[]): number =>
  new Set(tests.filter(({ lowerBound }) => !lowerBound).map(({ series }) => series)).size;

describe("fewer series never make a group that falls short meet", () => {
  it("over random groups from which series are dropped at random", () => {
    const random = createRandom("dropped series");
    const seen = new Map<string, number>();
    for (let i = 0; i < 40; i += 1) {
      const whole = group(
        ...randomSeries(random, 3 + random.integer(10), {
          mean: random.choice([0.7, 0.9, 1.1, 1.5, 2]),
          cov: random.choice([0.03, 0.15, 0.3]),
          icc: random.choice([0, 0.5, 0.95]),
          bounds: i % 8 === 0 ? 0.3 : 0,
        }),
      );
      const layout = bySeries("layout", whole, (k) => (k % 2 === 0 ? "single" : "group"));
      let left: readonly GroupTest[] = whole;
      let before = judged(left, { candidates: [layout] }).inGeneral.verdict;
      while (left.length > 0) {
        const dropped = random.choice(left).series;
        left = left.filter(({ series }) => series !== dropped);
        const {
          asTested,
          inGeneral: { verdict },
        } = judged(left, { candidates: [layout] });
        if (before === "falls short") expect(verdict).not.toBe("meets");
        if (failedSeries(left) < 3)
          expect(verdict).toBe(
            asTested.verdict === "too few tests" ? "too few tests" : "too few series",
          );
        seen.set(`${before} to ${verdict}`, (seen.get(`${before} to ${verdict}`) ?? 0) + 1);
        before = verdict;
      }
    }
    for (const step of [
      "falls short to falls short",
      "falls short to undecided",
      "falls short to too few series",
      "meets to meets",
      "meets to too few series",
    ]) {
      expect(seen.get(step) ?? 0, step).toBeGreaterThan(0);
    }
  });
});

describe("a few tests, which a reader can judge by eye", () => {
  it("three tests of 1.30, 1.40, 1.50 do not fall short", () => {
    // 1.40 - 5.311 x 0.1 = 0.87 and 1.40 - 0.840 x 0.1 = 1.32: K of 3 at 90 and 10 % (R: qt(p, 2,
    // qnorm(.95)*sqrt(3))/sqrt(3)).
    const { asTested, inGeneral } = judged(group([1.3, 1.4, 1.5]));
    expect(asTested.verdict).toBe("undecided");
    expect(asTested.lower).toBeCloseTo(1.4 - 0.5311478, 6);
    expect(asTested.upper).toBeCloseTo(1.4 - 0.0840052, 6);
    expect(inGeneral).toMatchObject({
      verdict: "too few series",
      lower: null,
      upper: null,
      fractile: null,
    });
  });
  it("three series of one test each have in general the bounds of three tests", () => {
    const { asTested, inGeneral } = judged(group([1.3], [1.4], [1.5]));
    expect(inGeneral.verdict).toBe("undecided");
    for (const side of ["lower", "fractile"] as const)
      expect(inGeneral[side]).toBeCloseTo(asTested[side]!, 6);
    // The upper bound in general is given 0.8 of the stated error: K of 3 at 8 % (R: qt(.08, 2,
    // qnorm(.95)*sqrt(3))/sqrt(3)).
    expect(inGeneral.upper).toBeCloseTo(1.4 - 0.1 * toleranceFactor({ n: 3, confidence: 0.08 }), 5);
  });
  it("six equal values of 0.8 fall short, as tested and in three series in general", () => {
    const oneSeries = judged(group([0.8, 0.8, 0.8, 0.8, 0.8, 0.8]));
    expect(oneSeries.asTested).toMatchObject({ verdict: "falls short", lower: 0.8, upper: 0.8 });
    expect(oneSeries.inGeneral.verdict).toBe("too few series");
    const three = judged(group([0.8, 0.8], [0.8, 0.8], [0.8, 0.8]));
    expect([three.asTested.verdict, three.inGeneral.verdict]).toEqual([
      "falls short",
      "falls short",
    ]);
    expect(three.inGeneral).toMatchObject({ lower: 0.8, fractile: 0.8, upper: 0.8 });
  });
  it("never has too few tests where equal values stand in 1 to 6 series, above or below the target", () => {
    for (const value of [0.8, 1, 1.2])
      for (let series = 1; series <= 6; series += 1) {
        const { asTested, inGeneral } = judged(
          group(
            ...Array.from({ length: series }, () =>
              Array.from(
                { length: 6 / series < 1 ? 1 : Math.max(1, Math.round(6 / series)) },
                () => value,
              ),
            ),
          ),
        );
        expect(asTested.verdict).toBe(value >= 1 ? "meets" : "falls short");
        expect(inGeneral.verdict).toBe(series < 3 ? "too few series" : asTested.verdict);
      }
  });
  it("one series of 12 has too few series in general, whatever it shows", () => {
    const random = createRandom("one series of 12");
    for (const mean of [0.5, 1.3, 3]) {
      const { asTested, inGeneral } = judged(
        group(Array.from({ length: 12 }, () => mean * (1 + 0.05 * random.normal()))),
      );
      expect(inGeneral.verdict).toBe("too few series");
      expectSaid(inGeneral.reason, "1 series", "at least 3");
      expect(asTested.verdict).toBe(mean < 1 ? "falls short" : "meets");
    }
  });
  it("two failures have too few tests in both, and lower bounds alone too", () => {
    for (const tests of [group([1.2, 1.3]), group([-1.2, -1.3], [-1.4], [-1.5]), []]) {
      const { asTested, inGeneral } = judged(tests);
      expect([asTested.verdict, inGeneral.verdict]).toEqual(["too few tests", "too few tests"]);
    }
  });
  it("a test without a named series gives no verdict in general", () => {
    const tests = group([1.3, 1.4, 1.5], [1.2, 1.3], [1.4, 1.6]);
    const { inGeneral } = judged([...tests, { ...tests[0]!, series: "" }]);
    expect(inGeneral).toMatchObject({ verdict: "too few series" });
    expectSaid(inGeneral.reason, "1 of 8 tests", "series");
  });
});
