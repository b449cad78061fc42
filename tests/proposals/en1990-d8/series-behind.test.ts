import { describe, expect, it } from "vitest";
import {
  calibrateEn1990,
  variationOfProduct,
  type CalibrationInput,
} from "../../../kernel-lib/src/proposals/en1990-d8";
import { expectSaid } from "../../says";

const SIX = [
  [1.02, 0.95, 1.1],
  [0.88, 1.05, 0.99],
  [1.21, 1.17, 1.12],
  [0.91, 0.85, 1],
  [0.79, 0.97, 0.9],
  [0.83, 0.8, 0.86],
];
const experimental = SIX.flat();
const theoretical = experimental.map(() => 1);
const series = SIX.flatMap((ratios, j) => ratios.map(() => `s${j}`));
const input: CalibrationInput = {
  experimental,
  theoretical,
  budget: variationOfProduct([{ name: "f_c", cov: 0.1, exponent: 0.5 }]),
  nominalOverMean: 0.9,
};

describe("the series behind a calibration to EN 1990 Annex D.8", () => {
  it("change no number of the annex", () => {
    const { behind, warnings, assumptions, ...plain } = calibrateEn1990(input);
    expect(behind).toBeNull();
    expectSaid(assumptions.at(-1), "18 tests", "independent", "Annex D", /series .*not given/);
    expect(calibrateEn1990({ ...input, series })).toMatchObject(plain);
    expect(warnings).toEqual([]);
  });
  it("have the correlation of R's analysis of variance and give what the tables give for so many tests", () => {
    const { behind, assumptions } = calibrateEn1990({ ...input, series });
    // R: a <- anova(lm(log(y) ~ series)); (a[1, 3] - a[2, 3]) / (a[1, 3] + 2 * a[2, 3]); n' = 18 /
    // (1 + 2 rho)
    expect(behind?.correlation).toBeCloseTo(0.690256128341, 6);
    expect(behind?.effectiveTests).toBeCloseTo(18 / (1 + 2 * 0.690256128341), 5);
    expect(behind).toMatchObject({ series: 6, count: 7 });
    const fewer = calibrateEn1990({ ...input, factorCount: behind?.count ?? NaN });
    expect(behind?.characteristicFactor).toBe(fewer.characteristicFactor);
    expect(behind?.designFactor).toBe(fewer.designFactor);
    const { correlation, effectiveTests, characteristicFactor, designFactor } = behind!;
    expectSaid(assumptions.at(-1), "18 tests", "independent", "Annex D", "6 series", "7 tests");
    expectSaid(
      assumptions.at(-1),
      `correlation of ${correlation!.toFixed(2)}`,
      effectiveTests!.toFixed(1),
      /r_k \/ r_n/,
      characteristicFactor!.toFixed(3),
      /r_d \/ r_n/,
      designFactor!.toFixed(3),
    );
  });
  it("are warned of just where a factor would move by more than the rounding step", () => {
    const at = (step?: number): string =>
      calibrateEn1990({ ...input, series, ...(step === undefined ? {} : { step }) }).warnings.join(
        "; ",
      );
    const { behind, designFactor } = calibrateEn1990({ ...input, series });
    expectSaid(
      at(),
      `effective sample size of ${behind!.count}`,
      `r_d / r_n ${designFactor!.toFixed(3)}`,
      behind!.designFactor!.toFixed(3),
    );
    expect(at()).not.toContain("r_k / r_n");
    expect(at(0.001)).toContain("r_k / r_n");
    expect(at(0.5)).toBe("");
  });
  it("are as many independent tests where each has one, and where tests of a series are not alike", () => {
    const alone = calibrateEn1990({ ...input, series: experimental.map((_, i) => String(i)) });
    expect(alone.behind).toEqual({
      series: 18,
      correlation: 0,
      effectiveTests: expect.closeTo(18, 9) as number,
      count: 18,
      characteristicFactor: alone.characteristicFactor,
      designFactor: alone.designFactor,
    });
    const mixed = calibrateEn1990({ ...input, series: experimental.map((_, i) => String(i % 3)) });
    expect(mixed.behind).toMatchObject({ correlation: 0, count: 18 });
  });
  it("that are two cannot be told, which is said; of another number they are refused", () => {
    const two = calibrateEn1990({
      ...input,
      series: experimental.map((_, i) => (i < 9 ? "a" : "b")),
    });
    expect(two.behind).toMatchObject({ series: 2, correlation: null, characteristicFactor: null });
    expectSaid(two.warnings.join(), "2 series");
    expectSaid(two.assumptions.at(-1), "fewer than 3");
    expect(() => calibrateEn1990({ ...input, series: ["a"] })).toThrow(
      "18 tests and 1 names of series",
    );
  });
  it("count lower bounds where the fit does", () => {
    const lowerBounds = experimental.map((_, i) => i % 5 === 0);
    const [out, used] = (["left out", "used by likelihood"] as const).map(
      (boundsAre) =>
        calibrateEn1990({ ...input, series, lowerBounds, treatmentOfLowerBounds: boundsAre })
          .behind,
    );
    expect(out?.effectiveTests).toBeLessThanOrEqual(14);
    expect(used?.effectiveTests).toBeLessThanOrEqual(14);
    expect(used?.correlation).not.toBe(out?.correlation);
  });
});
