import { describe, expect, it } from "vitest";
import { gripStrengths, gripTests, lognormalLaw } from "../../../kernel-lib/src/comparison";
import { fitCensored } from "../../../kernel-lib/src/statistics";
import { bars } from "./rows";
import { expectSaid } from "../../says";

describe("what a test says of its grip", () => {
  const of = (...change: Parameters<typeof bars>[0]) => gripTests(bars(change));
  it("takes the stress stated at the break, where blank peak load over the area of the bars", () => {
    const { tests } = of({}, { grip_break_stress_MPa: 690 }, { group_ny: 2, peak_load_kN: 120 });
    expect(tests.map(({ value, lowerBound }) => [value, lowerBound])).toEqual([
      [0.7, false],
      [0.69, false],
      [0.6, false],
    ]);
  });
  it("takes every other end as a lower bound, and a slip in the grip as a break", () => {
    const { tests } = of(
      { failure_mode: "bond" },
      { failure_mode: "bar_rupture", peak_load_kN: 99 },
      { failure_mode: "stopped" },
      { failure_mode: "stopped", peak_load_kN: 66, grip_break_stress_MPa: 650 },
    );
    expect(tests.map(({ value, lowerBound }) => [value, lowerBound])).toEqual([
      [0.7, true],
      [0.99, true],
      [0.7, true],
      [0.65, false],
    ]);
  });
  it("counts what it cannot use by reason, every row once", () => {
    const { tests, unused } = of(
      {},
      { excluded: "why" },
      { action: "shear", setup: "direct_shear", failure_mode: "bar_shear" },
      { grip: null },
      { bar_strength_MPa: null },
      { bar_area_mm2: null },
      { failure_mode: "unknown" },
    );
    expect(tests).toHaveLength(1);
    expect(unused).toEqual(
      [
        "excluded",
        "in shear: no bar in a grip",
        "grip not named",
        "bar_strength_MPa blank",
        "bar_area_mm2 blank",
        "failure mode unknown",
      ].map((reason) => ({ reason, n: 1 })),
    );
  });
});

describe("strength of a grip", () => {
  const broke = [0.61, 0.66, 0.66, 0.7, 0.73, 0.78];
  const others = [0.3, 0.45, 0.52, 0.68, 0.7, 0.74];
  const rows = [
    ...broke.map((share, i) => ({ peak_load_kN: 100 * share, series_id: `b${i % 2}` })),
    ...others.map((share) => ({
      peak_load_kN: 100 * share,
      failure_mode: "bond" as const,
      series_id: "o",
    })),
  ];
  const [grip] = gripStrengths(bars(rows)).groups;

  it('has the survival curve of R 4.2.2, survival 3.5-3: survfit(Surv(x, d) ~ 1, conf.type = "log-log")', () => {
    const steps = grip!.survival.steps.filter(({ failures }) => failures > 0);
    const expected = [
      [0.61, 9, 0.888888888888889, 0.4329650902258056, 0.983564028525579],
      [0.66, 8, 0.666666666666667, 0.2816822422216508, 0.878306757631374],
      [0.7, 5, 0.533333333333333, 0.17709138746704, 0.795912518291508],
      [0.73, 3, 0.355555555555556, 0.0620438875170695, 0.680685184004059],
    ];
    expected.forEach(([value, atRisk, ...shares], k) => {
      expect(steps[k]!.value).toBeCloseTo(value!, 12);
      expect(steps[k]!.atRisk).toBe(atRisk);
      [steps[k]!.survival, steps[k]!.lower!, steps[k]!.upper!].forEach((one, j) => {
        expect(one).toBeCloseTo(shares[j]!, 10);
      });
    });
    expect(steps[4]).toMatchObject({ value: 0.78, atRisk: 1, survival: 0 });
  });
  it('has the Weibull fractile of R: predict(survreg(..., dist = "weibull"), type = "quantile", p = 0.05)', () => {
    expect(grip!.weibullFractile).toBeCloseTo(0.601445844651603, 9);
  });
  it("has the lognormal law of R's survreg but for the bias of its SD", () => {
    const values = [...broke, ...others];
    const fit = fitCensored({
      values,
      censored: values.map((_, i) => i >= 6),
      distribution: "lognormal",
    });
    if (fit.status !== "ok") throw new Error(fit.reading);
    // survreg: intercept -0.340974021963936, scale 0.086666862130566
    expect(fit.location).toBeCloseTo(-0.340974021963936, 9);
    expect(fit.scale).toBeCloseTo(0.086666862130566, 9);
    expect(grip!.law).toMatchObject({
      failures: 6,
      lowerBounds: 6,
      series: 2,
      seriesEffect: "ignored",
    });
    expect(Math.log(grip!.law!.median)).toBeCloseTo(fit.location, 2);
    expect(grip!.law!.sdLog).toBeGreaterThan(fit.scale);
    expect(grip!.reliable!.share).toBeLessThan(fit.quantile(0.05));
  });
  it("counts breaks with the exact interval of SciPy's binomtest(6, 12)", () => {
    expect(grip).toMatchObject({
      broke: 6,
      lowerBounds: 6,
      lowest: 0.61,
      highest: 0.78,
      reached: 0.74,
    });
    expect([grip!.rate.lower, grip!.rate.upper].map((one) => one.toFixed(4))).toEqual([
      "0.2109",
      "0.7891",
    ]);
  });
  it("says plainly when tests are too few, and what would be needed", () => {
    const two = gripStrengths(bars(rows.slice(4))).groups[0]!;
    expect(two.reliable).toBeNull();
    expectSaid(two.reading, /too few tests/i, "2 of 8 tests", "at least 3");
    const none = gripStrengths(bars(rows.slice(6))).groups[0]!;
    expectSaid(none.reading, "no bar broke", "6 tests", "at least 45");
    const run = gripStrengths(
      bars(
        Array.from({ length: 50 }, (_, i) => ({
          peak_load_kN: 41 + i,
          failure_mode: "bond" as const,
        })),
      ),
    ).groups[0]!;
    expect(run.reliable).toMatchObject({
      share: 0.46,
      estimate: null,
      from: "tests without a break",
    });
    expect(gripStrengths(bars([{ grip: null }])).groups).toEqual([]);
  });
});

describe("lognormal law of single tests", () => {
  // SciPy 1.17.1: K = nct.ppf(C, n - 1, norm.ppf(0.95) sqrt(n)) / sqrt(n) of ln x; exp(mean + K SD)
  // and exp(mean - K SD)
  const values = [1.02, 1.1, 1.21, 0.95, 1.33, 1.18, 1.07, 1.26];
  const law = lognormalLaw(values.map((value) => ({ value, lowerBound: false, series: "" })));
  it("has the exact bounds of both fractiles without series and lower bounds", () => {
    if (typeof law === "string") throw new Error(law);
    expect(law.high.bound / 1.5470729812926856).toBeCloseTo(1, 4);
    expect(law.high.estimate / 1.3764122965091894).toBeCloseTo(1, 4);
    expect(law.low.bound / 0.8307811793581646).toBeCloseTo(1, 4);
    expect(law.low.estimate / 0.9337893298477286).toBeCloseTo(1, 4);
  });
  it("refuses fewer than three failures and failures without scatter", () => {
    expect(lognormalLaw([{ value: 1, lowerBound: false, series: "a" }])).toContain(
      "at least 3 are needed",
    );
    expect(
      typeof lognormalLaw([1, 1, 1].map((value) => ({ value, lowerBound: false, series: "" }))),
    ).toBe("string");
  });
});
