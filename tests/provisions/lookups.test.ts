import { describe, expect, it } from "vitest";
import { ASTM_D7957_BARS, ASTM_D7957_PROPERTIES, anchorLightweightFactor, astmD7957Bar, BAR_SIZES, barSize, convertStrength, EN206_CLASSES, lightweightFactor, meanStrength } from "../../kernel-lib/src/provisions";

describe("bar sizes", () => {
  it("US sizes agree with their rounded metric twins", () => {
    // Metric twins: published table of reinforcing bars (Springer, read on a public page).
    const pairs = [["No. 3", "M10"], ["No. 4", "M13"], ["No. 5", "M16"], ["No. 6", "M19"], ["No. 7", "M22"], ["No. 8", "M25"], ["No. 9", "M29"], ["No. 10", "M32"], ["No. 11", "M36"]] as const;
    for (const [inch, metric] of pairs) {
      expect(Math.abs(barSize("us", inch).diameter_mm - barSize("us_metric", metric).diameter_mm), inch).toBeLessThanOrEqual(0.06);
      expect(Math.abs(barSize("us", inch).area_mm2 - barSize("us_metric", metric).area_mm2), inch).toBeLessThanOrEqual(1);
    }
  });

  it("areas are those of the diameters, within the rounding of each table", () => {
    for (const { system, designation, diameter_mm, area_mm2 } of BAR_SIZES) {
      expect(Math.abs(area_mm2 / ((Math.PI / 4) * diameter_mm ** 2) - 1), `${system} ${designation}`).toBeLessThan(system === "en" ? 0.002 : 0.035);
    }
  });

  it("names what there is when asked for what there is not", () => {
    expect(() => barSize("en", "22")).toThrow(/expected one of 6, 8, 10/);
    expect(() => astmD7957Bar(12)).toThrow(/expected one of 2, 3/);
  });
});

describe("glass FRP of ASTM D7957", () => {
  it("force over area gives the printed strengths, ksi (from memory)", () => {
    const printed: Readonly<Record<string, number>> = { "No. 2": 124, "No. 3": 120, "No. 4": 108, "No. 5": 93.9, "No. 6": 93, "No. 7": 90.2, "No. 8": 84.6, "No. 9": 82, "No. 10": 77.3 };
    for (const { size, guaranteedStrength_MPa } of ASTM_D7957_BARS) {
      const digits = (printed[size.designation] ?? NaN) < 100 ? 0.06 : 0.6;
      expect(Math.abs(guaranteedStrength_MPa / 6.894757 - (printed[size.designation] ?? NaN)), size.designation).toBeLessThan(digits);
    }
  });

  it("forces in kN and the least transverse shear and bond", () => {
    // Printed metric twins, kN (from memory).
    expect([3, 5, 8].map((number) => Math.round(astmD7957Bar(number).guaranteedForce_N / 1000))).toEqual([59, 129, 297]);
    const value = (name: string): number => ASTM_D7957_PROPERTIES.find((property) => property.name === name)?.value ?? NaN;
    // 19 ksi and 1,100 psi: public abstracts of the specification.
    expect(value("guaranteed transverse shear strength") / 6.894757).toBeCloseTo(19, 1);
    expect((value("guaranteed bond strength") / 6.894757) * 1000).toBeCloseTo(1102, 0);
  });
});

describe("concrete", () => {
  it("EN 206 classes agree with the factor from cube to cylinder within its stated 6 %", () => {
    for (const [cylinder, cube] of EN206_CLASSES) expect(Math.abs(convertStrength(cube, "cube_150", "cylinder").strength_MPa / cylinder - 1)).toBeLessThan(0.06);
  });

  it("conversions there and back, and no guess at an unknown basis", () => {
    expect(convertStrength(convertStrength(40, "cylinder", "cube_200").strength_MPa, "cube_200", "cylinder").strength_MPa).toBeCloseTo(40, 12);
    expect(convertStrength(34, "cylinder", "cube_200").strength_MPa).toBeCloseTo(40, 12);
    expect(() => convertStrength(40, "unknown", "cylinder")).toThrow(/expected one of cylinder, cube_150/);
    expect(meanStrength(25)).toBe(33);
  });

  it("lightweight factors", () => {
    // ACI 318-19 Table 19.2.4.1(a), from memory: 100 lb/ft3 gives 0.75, 120 gives 0.9, 145 gives 1.
    expect(lightweightFactor(100 * 16.018463)).toBeCloseTo(0.75, 9);
    expect(lightweightFactor(120 * 16.018463)).toBeCloseTo(0.9, 9);
    expect(lightweightFactor(2320)).toBe(1);
    expect(anchorLightweightFactor("adhesive_bond", 0.85, true)).toBeCloseTo(0.51, 12);
    expect(anchorLightweightFactor("adhesive_bond", 0.85, false)).toBe(1);
    expect(() => lightweightFactor(0)).toThrow(RangeError);
  });
});
