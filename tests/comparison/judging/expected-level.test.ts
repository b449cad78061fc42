import { describe, expect, it } from "vitest";
import { compare, groupRatios, type RatioGroup } from "../../../kernel-lib/src/comparison";
import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import { code } from "../../../kernel-lib/src/provisions";
import { table } from "../../provisions/specimens";
import { expectSaid } from "../../says";

/**
 * 20 series of 4, made by formula in R: b and e the normal scores of (i - 0.5)/m in the order (7 i)
 * mod 20 + 1 and (37 i) mod 80 + 1, y = round(1.1 + 0.12 b + 0.1 e, 3).
 */
const RATIOS = [
  1.054, 1.21, 1.035, 1.168, 1.125, 1.249, 1.102, 1.226, 0.831, 0.961, 0.795, 0.941, 0.869, 1.073,
  1.236, 1.054, 1.303, 1.147, 1.273, 1.125, 1.02, 0.871, 0.999, 0.837, 1.11, 0.906, 1.091, 1.263,
  1.192, 1.33, 1.172, 1.299, 0.926, 1.05, 0.901, 1.028, 0.989, 1.128, 0.937, 1.109, 1.424, 1.221,
  1.363, 1.201, 1.1, 0.951, 1.075, 0.927, 1.166, 1.011, 1.146, 0.964, 1.277, 1.481, 1.259, 1.405,
  0.995, 1.124, 0.974, 1.098, 1.061, 1.185, 1.032, 1.165, 1.187, 1.343, 1.585, 1.324, 1.185, 1.015,
  1.147, 0.995, 1.228, 1.081, 1.205, 1.053, 0.895, 0.725, 0.876, 0.615,
];
/** R 4, nlme: lme(y ~ 1, random = ~1|g), REML; vcov; qt(0.975, 19); VarCorr. */
const LME = {
  mean: 1.099987,
  meanSe: 0.03354505,
  lower: 1.029777,
  upper: 1.170198,
  between: 0.1408749,
  within: 0.1031439,
};

const CAPACITY = (Math.PI * 16 * 100 * 10) / 1000;
const bond = (rows: readonly Partial<TestRowInput>[]): RatioGroup => {
  const comparison = compare(
    table(
      ...rows.map((row) => ({
        bar_diameter_mm: 16,
        embedment_mm: 100,
        cracked: "no" as const,
        failure_mode: "bond" as const,
        ...row,
      })),
    ),
    code("uniform-bond-1998"),
    { level: "expected", options: { mean_bond_stress: 10 } },
  );
  return groupRatios(comparison, ["mode"], { cells: [], distribution: "normal" }).find(
    ({ by }) => by["mode"] === "bond",
  )!;
};
const inSeries = (ratios: readonly number[], each: number): RatioGroup =>
  bond(
    ratios.map((ratio, i) => ({
      peak_load_kN: ratio * CAPACITY,
      series_id: `s${Math.floor(i / each)}`,
    })),
  );

describe("a mean model (level expected)", () => {
  const group = inSeries(RATIOS, 4);
  it("has no criterion, and says why", () => {
    for (const { verdict, fractile, lower, upper, reason } of [group.asTested, group.inGeneral]) {
      expect({ verdict, fractile, lower, upper }).toEqual({
        verdict: "no criterion",
        fractile: null,
        lower: null,
        upper: null,
      });
      expectSaid(reason, "mean strengths", "expected level");
    }
    expect([group.verdict, group.inGeneral.otherDistribution]).toEqual(["no criterion", null]);
  });
  it("has the bias of R's lme, with an interval as wide or slightly wider", () => {
    const { mean, meanLower, meanUpper } = group.bias!;
    expect(mean).toBeCloseTo(LME.mean, 5);
    // lme takes the estimated correlation as known; the average over it may only widen the
    // interval, with 20 series by little.
    const width = (meanUpper! - meanLower!) / (LME.upper - LME.lower);
    expect(width).toBeGreaterThan(0.99);
    expect(width).toBeLessThan(1.1);
    expect((meanLower! + meanUpper!) / 2).toBeCloseTo(LME.mean, 5);
  });
  it("has a COV whose interval holds that of lme's variance components", () => {
    const { cov, covLower, covUpper } = group.bias!;
    const total = Math.hypot(LME.between, LME.within) / LME.mean;
    expect(group.inGeneral.icc).toBeCloseTo(
      LME.between ** 2 / (LME.between ** 2 + LME.within ** 2),
      4,
    );
    expect(Math.abs(cov! / total - 1)).toBeLessThan(0.02);
    expect(covLower!).toBeLessThan(total);
    expect(covUpper!).toBeGreaterThan(total);
    // Delta method on lme's components: var(s^2) = 2 MSB^2/(16 x 19) + 2 (3/4)^2 MSW^2/60, MSB = 4
    // s_b^2 + s_e^2.
    const [msb, msw] = [4 * LME.between ** 2 + LME.within ** 2, LME.within ** 2];
    const ofLogSd =
      Math.sqrt((2 * msb ** 2) / (16 * 19) + (2 * 0.75 ** 2 * msw ** 2) / 60) /
      (2 * (LME.between ** 2 + LME.within ** 2));
    // 2.093 is t of 19 degrees of freedom.
    expect(Math.log(covUpper! / covLower!) / (2 * 2.093 * ofLogSd)).toBeGreaterThan(0.85);
    expect(Math.log(covUpper! / covLower!) / (2 * 2.093 * ofLogSd)).toBeLessThan(1.2);
  });
  it("has bias and COV without intervals from two series", () => {
    expect(inSeries(RATIOS.slice(0, 20), 10).bias).toMatchObject({
      meanLower: null,
      meanUpper: null,
      covLower: null,
      covUpper: null,
    });
    expect(inSeries(RATIOS.slice(0, 20), 10).verdict).toBe("no criterion");
  });
});
