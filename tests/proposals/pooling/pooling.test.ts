import { describe, expect, it } from "vitest";
import { compare, groupRatios } from "../../../kernel-lib/src/comparison";
import {
  factorsOfModes,
  FRP_MODES_ACI318,
  homogeneityOfClasses,
  oneFactorPerClass,
  oneFactorPerMode,
  type ClassOfTests,
} from "../../../kernel-lib/src/proposals";
import { code } from "../../../kernel-lib/src/provisions";
import { createRandom, type Random } from "../../../kernel-lib/src/statistics";
import { table } from "../../provisions/specimens";
import { expectSaid } from "../../says";

const tests = (ratios: readonly number[], bounds: readonly number[] = []): ClassOfTests["tests"] =>
  ratios.map((ratio, k) => ({ ratio, bound: bounds.includes(k) }));
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
  it("tells apart what differs and calls equal classes different about as often as its level says", () => {
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
  it("cannot tell for two failures, and refuses a single class", () => {
    expect(
      homogeneityOfClasses([
        { label: "a", tests: tests(a) },
        { label: "b", tests: tests([0.9, 1, 1.1], [2]) },
      ]),
    ).toMatchObject({
      status: "cannot tell",
      reading:
        "a and b were not compared and may not be pooled: fewer than 3 tests failed in the mode for b.",
    });
    expect(() => homogeneityOfClasses([{ label: "a", tests: [] }])).toThrow("expected at least 2");
  });
});

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
  bounds: readonly number[] = [],
  limit: number = 0.001,
): ClassOfTests => ({
  label,
  tests: series.flatMap((ratios, j) => [
    ...ratios.map((ratio) => ({ ratio, bound: false, series: `${label}${j}` })),
    ...(bounds.includes(j) ? [{ ratio: limit, bound: true, series: `${label}${j}` }] : []),
  ]),
});

describe("homogeneityOfClasses, counted by series", () => {
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
      "scatters with lower bounds",
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
      // the same tests are told apart in a quarter or more.
      expect(alarms / samples).toBeLessThan(0.05 + 3 * Math.sqrt((0.05 * 0.95) / samples));
      expect(ofTests / samples).toBeGreaterThan(0.2);
      expect(missed / samples).toBeLessThan(0.05);
    }
  });
  it("cannot tell with fewer than 3 series in a class, or tests without a series, and then takes no test as independent", () => {
    const lone = homogeneityOfClasses([
      ofSeries("a", SIX.slice(0, 3)),
      ofSeries("b", [SIX.slice(3).flat()]),
    ]);
    expect(lone).toMatchObject({
      status: "cannot tell",
      basis: "series",
      tests: [],
      difference: null,
    });
    expectSaid(lone.reading, /^a and b/, /\bnot be pooled/, "3 series", "b has 1");
    const nameless = homogeneityOfClasses([
      ofSeries("a", SIX.slice(0, 3)),
      { label: "b", tests: tests(b) },
    ]);
    expect(nameless.status).toBe("cannot tell");
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

const bars = (material: "gfrp" | "bfrp", loads: readonly number[]) =>
  loads.map((load, k) => ({
    series_id: `${material}${k % 3}`,
    bar_material: material,
    failure_mode: "bond" as const,
    peak_load_kN: load,
  }));
function factorsFor(basalt: readonly number[], pooling: "never" | "no difference found" = "never") {
  const all = table(...bars("gfrp", [26, 28, 30, 31, 33, 29, 28]), ...bars("bfrp", basalt));
  const comparison = compare(all, code("aci318-19"), { level: "nominal" });
  const bond = {
    ...comparison,
    evidence: comparison.evidence.filter(({ mode }) => mode === "bond"),
  };
  return factorsOfModes(bond, groupRatios(bond, ["mode", "bar_material"]), { pooling });
}

describe("factorsOfModes", () => {
  const similar = [27, 28, 30, 32, 31, 29];
  it("pools classes without a significant difference only when asked; else the class that needs the lowest factor decides", () => {
    const [never] = factorsFor(similar);
    expect(never?.pooled?.n).toBe(13);
    expect(never?.chosen).toBe(never?.worst);
    expectSaid(never?.reading, /no significant difference/i, /pooled/i, "13 tests");
    const [pooled] = factorsFor(similar, "no difference found");
    expect(pooled?.chosen).toBe(pooled?.pooled);
    expect(pooled?.chosen?.exact).toBeGreaterThan(pooled?.worst?.exact ?? NaN);
  });
  it("uses one criterion for all classes of a mode: fractile where no steel stands beside", () => {
    const [found] = factorsFor(similar);
    expect(found?.criterion).toBe("fractile");
    for (const one of found?.perClass ?? [])
      expect(one).toMatchObject({ criterion: "fractile", steel: { factor: null } });
  });
  it("never pools classes that differ", () => {
    const lower = similar.map((load) => 0.6 * load);
    const [differ] = factorsFor(lower, "no difference found");
    expect(differ?.pooled).toBeNull();
    expect(differ?.chosen?.label).toContain("BFRP");
    expect(oneFactorPerMode(factorsFor(lower), FRP_MODES_ACI318)[0]?.factor).toBe(
      String(differ?.worst?.rounded),
    );
    expect(
      oneFactorPerClass(factorsFor(lower), FRP_MODES_ACI318).map(({ where, factor }) => [
        where,
        factor,
      ]),
    ).toEqual(
      differ?.perClass.map(({ rounded, label }) => [
        label.includes("BFRP") ? "bfrp == 1" : "gfrp == 1",
        String(rounded),
      ]),
    );
  });
  it("proposes nothing where a class has too few tests, and says which", () => {
    const few = factorsFor([20, 22]);
    expect(few[0]).toMatchObject({ chosen: null, pooled: null });
    expectSaid(few[0]?.reading, "no factor", /bond, BFRP\b.*too few tests/);
    expect(few[0]?.perClass.find(({ label }) => label.includes("BFRP"))).toMatchObject({
      status: "not derived",
      rounded: null,
    });
    expect(oneFactorPerMode(few, FRP_MODES_ACI318)).toEqual([]);
  });
});
