import { describe, expect, it } from "vitest";
import { cylinderStrength, fitStrengthExponent, normaliseToStrength } from "../../kernel-lib/src/dataset";
import { createRandom } from "../../kernel-lib/src/statistics/random";

describe("normalisation", () => {
  it("gives the value, the normalised value and the factor", () => {
    expect(normaliseToStrength(50, 40, 10, 0.5)).toEqual({ value: 50, normalised: 25, factor: 0.5, exponent: 0.5, reference: 10 });
    expect(normaliseToStrength(50, 40, 10, 0).normalised).toBe(50);
    expect(() => normaliseToStrength(50, 0, 10, 0.5)).toThrow(/expected both above 0/);
  });

  it("there and back is the same", () => {
    const random = createRandom("normalise");
    for (let k = 0; k < 200; k += 1) {
      const [a, b, m] = [10 + 90 * random.uniform(), 10 + 90 * random.uniform(), random.uniform()];
      expect(normaliseToStrength(normaliseToStrength(7, a, b, m).normalised, b, a, m).normalised).toBeCloseTo(7, 12);
    }
  });

  it("fits the exponent as R does", () => {
    // R: summary(lm(log(c(30, 36, 41, 44, 52)) ~ log(c(20, 28, 35, 42, 60))))$coefficients
    const fit = fitStrengthExponent([30, 36, 41, 44, 52], [20, 28, 35, 42, 60]);
    expect(fit.exponent).toBeCloseTo(0.500259726068581, 10);
    expect(fit.standardError).toBeCloseTo(0.0184170141190809, 10);
    expect(() => fitStrengthExponent([1, 2], [1, 2])).toThrow(/3 tests or more/);
    expect(() => fitStrengthExponent([1, 2, 3], [5, 5, 5])).toThrow(/do not vary/);
  });

  it("converts strength bases within the classes of EN 206", () => {
    // EN 206, Table 12: C12/15 to C50/60, characteristic cylinder / 150 mm cube
    for (const [cylinder, cube] of [[12, 15], [16, 20], [20, 25], [25, 30], [30, 37], [35, 45], [40, 50], [45, 55], [50, 60]] as const) {
      const converted = cylinderStrength(cube, "cube_150");
      expect(Math.abs((converted?.cylinder_MPa ?? NaN) / cylinder - 1)).toBeLessThan(0.05);
    }
    expect(cylinderStrength(40, "cylinder")).toMatchObject({ cylinder_MPa: 40, relativeUncertainty: 0 });
    expect(cylinderStrength(40, "cube_200")?.cylinder_MPa).toBeCloseTo(34, 12);
    expect(cylinderStrength(40, "unknown")).toBeNull();
  });
});
