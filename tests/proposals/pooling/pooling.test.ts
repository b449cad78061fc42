import { describe, expect, it } from "vitest";
import { compare, groupRatios } from "../../../kernel-lib/src/comparison";
import { factorsOfModes, FRP_MODES_ACI318, homogeneityOfClasses, oneFactorPerClass, oneFactorPerMode, type ClassOfTests } from "../../../kernel-lib/src/proposals";
import { seriesInterval } from "../../../kernel-lib/src/proposals/series-interval";
import { code } from "../../../kernel-lib/src/provisions";
import { createRandom, type Random } from "../../../kernel-lib/src/statistics";
import { table } from "../../provisions/specimens";

const tests = (ratios: readonly number[], bounds: readonly number[] = []): ClassOfTests["tests"] => ratios.map((ratio, k) => ({ ratio, bound: bounds.includes(k) }));
const [a, b] = [[1.02, 0.95, 1.1, 0.88, 1.05, 0.99], [0.91, 0.85, 1.0, 0.79, 0.97, 0.9, 0.83]];

describe("homogeneityOfClasses", () => {
  it("is R's Welch and Brown-Forsythe test on ln ratio, Holm-corrected", () => {
    const found = homogeneityOfClasses([{ label: "a", tests: tests(a) }, { label: "b", tests: tests(b) }]);
    // R: oneway.test(log(x) ~ g)$p.value; anova(lm(abs(y - ave(y, g, FUN = median)) ~ g)) for the variances
    expect(found.tests[0]?.p).toBeCloseTo(0.03077212141, 9);
    expect(found.tests[1]?.p).toBeCloseTo(0.7972355935, 9);
    expect(found.tests[0]?.pAdjusted).toBeCloseTo(2 * 0.03077212141, 9);
    expect(found.status).toBe("not told apart");
  });
  it("with lower bounds is the likelihood ratio of R's survreg", () => {
    const found = homogeneityOfClasses([{ label: "a", tests: tests(a, [2, 5]) }, { label: "b", tests: tests(b, [2]) }]);
    // R: survreg(Surv(x, failed) ~ 1, dist = "lognormal")$loglik[1], together and apart; pchisq(2 * (apart - together), 2, lower.tail = FALSE)
    expect(found.tests).toHaveLength(1);
    expect(found.tests[0]?.p).toBeCloseTo(0.08831277811, 6);
  });
  it("tells apart what differs and calls equal classes different about as often as its level says", () => {
    const draw = (random: Random, n: number, mean: number, limit: number): ClassOfTests["tests"] => Array.from({ length: n }, () => Math.exp(mean + 0.12 * random.normal())).map((ratio) => ({ ratio: Math.min(ratio, limit), bound: ratio > limit }));
    for (const limit of [Infinity, 1.1]) {
      let [alarms, found] = [0, 0];
      for (let seed = 0; seed < 300; seed++) {
        const random = createRandom(`homogeneity ${seed}`);
        const of = (mean: number): string => homogeneityOfClasses([{ label: "a", tests: draw(random, 20, 0, limit) }, { label: "b", tests: draw(random, 20, mean, limit) }]).status;
        if (of(0) === "differ") alarms += 1;
        if (of(-0.2) === "differ") found += 1;
      }
      // Level 5 %, binomial standard error 1.3 %; the large-sample form may be somewhat above.
      expect(alarms / 300).toBeLessThan(0.09);
      expect(found / 300).toBeGreaterThan(0.95);
    }
  });
  it("cannot tell for two failures, and refuses a single class", () => {
    expect(homogeneityOfClasses([{ label: "a", tests: tests(a) }, { label: "b", tests: tests([0.9, 1, 1.1], [2]) }])).toMatchObject({ status: "cannot tell", reading: "Whether a and b may be pooled cannot be told: fewer than 3 tests failed in the mode for b." });
    expect(() => homogeneityOfClasses([{ label: "a", tests: [] }])).toThrow("expected at least 2");
  });
});

const bars = (material: "gfrp" | "bfrp", loads: readonly number[]) => loads.map((load, k) => ({ series_id: `${material}${k % 3}`, bar_material: material, failure_mode: "bond" as const, peak_load_kN: load }));
function factorsFor(basalt: readonly number[], pooling: "never" | "where alike" = "never") {
  const all = table(...bars("gfrp", [26, 28, 30, 31, 33, 29, 28]), ...bars("bfrp", basalt));
  const comparison = compare(all, code("aci318-19"), { level: "nominal" });
  const bond = { ...comparison, evidence: comparison.evidence.filter(({ mode }) => mode === "bond") };
  return factorsOfModes(bond, groupRatios(bond, ["mode", "bar_material"]), (row) => ({ series: all.text(row, "series_id") ?? "", study: "s" }), { resamples: 100, pooling });
}

describe("factorsOfModes", () => {
  const alike = [27, 28, 30, 32, 31, 29];
  it("pools classes that are not told apart only when asked; else the worst class holds, in words", () => {
    const [never] = factorsFor(alike);
    expect(never?.pooled?.n).toBe(13);
    expect(never?.chosen).toBe(never?.worst);
    expect(never?.reading).toMatch(/may be pooled.*Pooled, all 13 tests give.*no class is left short/);
    const [pooled] = factorsFor(alike, "where alike");
    expect(pooled?.chosen).toBe(pooled?.pooled);
    expect(pooled?.chosen?.exact).toBeGreaterThan(pooled?.worst?.exact ?? NaN);
  });
  it("never pools classes that differ", () => {
    const [differ] = factorsFor(alike.map((load) => 0.6 * load), "where alike");
    expect(differ?.pooled).toBeNull();
    expect(differ?.chosen?.label).toContain("BFRP");
    expect(differ?.reading).toContain("may not be pooled");
    expect(oneFactorPerMode(factorsFor(alike.map((load) => 0.6 * load)), FRP_MODES_ACI318)[0]?.factor).toBe(String(differ?.worst?.rounded));
    expect(oneFactorPerClass(factorsFor(alike.map((load) => 0.6 * load)), FRP_MODES_ACI318).map(({ where, factor }) => [where, factor])).toEqual(differ?.perClass.map(({ rounded, label }) => [label.includes("BFRP") ? "bfrp == 1" : "gfrp == 1", String(rounded)]));
  });
  it("proposes nothing where a class has too few tests, and says which", () => {
    const few = factorsFor([20, 22]);
    expect(few[0]).toMatchObject({ chosen: null, pooled: null });
    expect(few[0]?.reading).toMatch(/no factor for all classes, since bond, BFRP has too few tests/);
    expect(few[0]?.perClass[1]?.reading).toMatch(/Bond, (BFRP|GFRP)/);
    expect(few[0]?.perClass.find(({ label }) => label.includes("BFRP"))).toMatchObject({ status: "not derived", rounded: null });
    expect(oneFactorPerMode(few, FRP_MODES_ACI318)).toEqual([]);
  });
});

describe("seriesInterval", () => {
  const random = createRandom("series interval");
  const sample = Array.from({ length: 60 }, () => ({ ratio: 1 + 0.1 * random.normal(), bound: false }));
  const series = sample.map((_, k) => String(k % 12));
  const exact = 0.8;
  it("with one lower bound far below all else is nearly the interval without it", () => {
    const settings = { resamples: 400, seed: 3 };
    const plain = seriesInterval(sample, series, exact, "normal", settings);
    // K for n = 60, 5 % at 90 %: R qt(.9, 59, qnorm(.95) * sqrt(60)) / sqrt(60)
    const mean = sample.reduce((sum, { ratio }) => sum + ratio, 0) / 60;
    const sd = Math.sqrt(sample.reduce((sum, { ratio }) => sum + (ratio - mean) ** 2, 0) / 59);
    const bounded = seriesInterval([...sample, { ratio: 0.01, bound: true }], [...series, "0"], mean - 1.933272 * sd, "normal", settings);
    expect(Math.abs((bounded?.lower ?? NaN) - (plain?.lower ?? NaN))).toBeLessThan(0.015);
    expect(Math.abs((bounded?.upper ?? NaN) - (plain?.upper ?? NaN))).toBeLessThan(0.015);
  });
  it("is wider when tests of one series are alike", () => {
    const shifted = sample.map(({ ratio }, k) => ({ ratio: ratio + 0.15 * (k % 12 < 6 ? 1 : -1), bound: k % 5 === 0 }));
    const width = (of: { lower: number; upper: number } | null): number => (of?.upper ?? NaN) - (of?.lower ?? NaN);
    const settings = { resamples: 300, seed: 3 };
    expect(width(seriesInterval(shifted, series, exact, "normal", settings))).toBeGreaterThan(width(seriesInterval(shifted, sample.map((_, k) => String(k)), exact, "normal", settings)));
  });
});
