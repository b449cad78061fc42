import { describe, expect, it } from "vitest";
import { homogeneityOfClasses, type ClassOfTests } from "../../../kernel-lib/src/proposals";
import { createRandom, type Random } from "../../../kernel-lib/src/statistics";
import { expectSaid } from "../../says";

const tests = (
  ratios: readonly number[],
  lowerBounds: readonly number[] = [],
): ClassOfTests["tests"] => ratios.map((ratio, k) => ({ ratio, bound: lowerBounds.includes(k) }));
const b = [0.91, 0.85, 1.0, 0.79, 0.97, 0.9, 0.83];

const SIX = [
  [1.02, 0.95, 1.1],
  [0.88, 1.05, 0.99],
  [1.21, 1.17, 1.12],
  [0.91, 0.85, 1],
  [0.79, 0.97, 0.9],
  [0.83, 0.8, 0.86],
];
const ofSeries = (
  label: string,
  series: readonly (readonly number[])[],
  lowerBounds: readonly number[] = [],
  limit: number = 0.001,
): ClassOfTests => ({
  label,
  tests: series.flatMap((ratios, j) => [
    ...ratios.map((ratio) => ({ ratio, bound: false, series: `${label}${j}` })),
    ...(lowerBounds.includes(j) ? [{ ratio: limit, bound: true, series: `${label}${j}` }] : []),
  ]),
});

describe("homogeneityOfClasses, series effect included", () => {
  it("is R's aov with an error stratum of series, on ln ratio and on the distances from the median", () => {
    const found = homogeneityOfClasses([
      ofSeries("a", SIX.slice(0, 3)),
      ofSeries("b", SIX.slice(3)),
    ]);
    // R: summary(aov(log(y) ~ group + Error(series))); z <- abs(log(y) - ave(log(y), group, FUN =
    // median)), aov(z ~ group + Error(series))
    expect(found.tests[0]?.p).toBeCloseTo(0.043817, 6);
    expect(found.tests[1]?.p).toBeCloseTo(0.45094, 5);
    // R: exp(d + c(-1, 0, 1) * qt(.9875, 4) * sqrt(0.01734797457 * 2 / 9)), d the difference of the
    // means of log(y): it holds 1 as p by Holm is above 0.05
    expect(found.difference).toMatchObject({ of: "b", over: "a", confidence: 0.975 });
    [found.difference?.lower, found.difference?.ratio, found.difference?.upper].forEach(
      (value, k) =>
        expect(value).toBeCloseTo([0.671990597859, 0.834866924507, 1.037221032344][k] ?? NaN, 8),
    );
    expect(found).toMatchObject({ status: "no significant difference", basis: "series" });
    expect(found.warnings).toHaveLength(1);
    expectSaid(found.warnings[0], "3 series of a", "3 series of b", "large difference");
    // No difference found is never called equality, and the interval says how far from it.
    expectSaid(found.reading, /^no significant difference/i, "series effect included");
    expectSaid(found.reading, /\bnot show .*\bequal\b/, "0.67 to 1.04", found.warnings[0]!);
  });
  it("with lower bounds that tell nothing is Welch's test of the means of the series, as R has it", () => {
    const found = homogeneityOfClasses([
      ofSeries("a", SIX.slice(0, 3), [1]),
      ofSeries("b", SIX.slice(3)),
    ]);
    // R: oneway.test(m ~ g)$p.value, m the means of log(y) of the six series
    expect(found.tests.map(({ method }) => method)).toEqual([
      "means with lower bounds, Welch by series",
      "scatter with lower bounds",
    ]);
    expect(found.tests[0]?.p).toBeCloseTo(0.0603447461513, 6);
  });
  it("does not take a difference of series for one of classes, and finds one of classes", () => {
    const draw = (random: Random, mean: number, limit: number, label: string): ClassOfTests => ({
      label,
      tests: [3, 5, 4, 6, 2, 4, 5, 3].flatMap((count, j) => {
        const shift = 0.1 * random.normal();
        return Array.from({ length: count }, () =>
          Math.exp(mean + shift + 0.06 * random.normal()),
        ).map((ratio) => ({
          ratio: Math.min(ratio, limit),
          bound: ratio > limit,
          series: `${label}${j}`,
        }));
      }),
    });
    for (const [limit, samples] of [
      [Infinity, 400],
      [1.08, 60],
    ] as const) {
      let [alarms, ofTests, missed] = [0, 0, 0];
      for (let seed = 0; seed < samples; seed++) {
        const random = createRandom(`classes in series ${seed}`);
        const [one, same, other] = [
          draw(random, 0, limit, "a"),
          draw(random, 0, limit, "b"),
          draw(random, -0.3, limit, "b"),
        ];
        if (homogeneityOfClasses([one, same]).status === "differ") alarms += 1;
        if (homogeneityOfClasses([one, other]).status !== "differ") missed += 1;
        const bare = (of: ClassOfTests): ClassOfTests => ({
          label: of.label,
          tests: of.tests.map(({ ratio, bound }) => ({ ratio, bound })),
        });
        if (homogeneityOfClasses([bare(one), bare(same)]).status === "differ") ofTests += 1;
      }
      // Level 5 %: binomial standard error 1.1 % of 400 samples, 2.8 % of 60. Taken as independent
      // the same classes are found to differ in a quarter or more.
      expect(alarms / samples).toBeLessThan(0.05 + 3 * Math.sqrt((0.05 * 0.95) / samples));
      expect(ofTests / samples).toBeGreaterThan(0.2);
      expect(missed / samples).toBeLessThan(0.05);
    }
  });
  it("compares nothing with fewer than 3 series in a class, or tests without a series, and then takes no test as independent", () => {
    const lone = homogeneityOfClasses([
      ofSeries("a", SIX.slice(0, 3)),
      ofSeries("b", [SIX.slice(3).flat()]),
    ]);
    expect(lone).toMatchObject({
      status: "not compared",
      basis: "series",
      tests: [],
      difference: null,
    });
    expectSaid(lone.reading, /^a and b/, /\bnot be pooled/, "3 series", "b has 1");
    const nameless = homogeneityOfClasses([
      ofSeries("a", SIX.slice(0, 3)),
      { label: "b", tests: tests(b) },
    ]);
    expect(nameless.status).toBe("not compared");
    expectSaid(nameless.reading, /^a and b/, /\bnot be pooled/, "7 of 7 of b");
  });
  it("says where a series has tests in two classes", () => {
    const [one, other] = [ofSeries("a", SIX.slice(0, 3)), ofSeries("b", SIX.slice(3))];
    const shared = {
      ...other,
      tests: other.tests.map((test, k) => (k < 3 ? { ...test, series: "a0" } : test)),
    };
    expectSaid(homogeneityOfClasses([one, shared]).warnings[0], "1 series", /more than one class/);
  });
});
