import { describe, expect, it } from "vitest";
import {
  ASTM_D7957_BARS, ASTM_D7957_PROPERTIES, anchorLightweightFactor, astmD7957Bar, BAR_SIZES, barSize, convertStrength, EN206_CLASSES, ENVIRONMENTAL_FACTORS, environmentalFactor, lightweightFactor, localBondLaw, meanStrength, slipAtSplitting, threadedArea,
} from "../../kernel-lib/src/provisions";

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

  it("says how sure a conversion is, and adds both steps' doubts", () => {
    expect(convertStrength(37, "cube_150", "cylinder")).toMatchObject({ within: 0.06, rule: expect.stringContaining("EN 206") as string });
    expect(convertStrength(37, "cube_150", "cube_200").within).toBeCloseTo(0.12, 12);
    expect(convertStrength(37, "cylinder", "cylinder")).toEqual({ strength_MPa: 37, rule: "as measured", within: 0 });
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

describe("bars", () => {
  it("environmental factors by guide, fibre and exposure", () => {
    // ACI 440.1R-15, from memory: glass 0.8 / 0.7, carbon 1.0 / 0.9, aramid 0.9 / 0.8.
    expect(ENVIRONMENTAL_FACTORS.filter(({ code }) => code === "aci440.1r-15").map(({ C_E }) => C_E)).toEqual([0.8, 0.7, 1, 0.9, 0.9, 0.8]);
    expect(environmentalFactor("aci440.11-22", "glass", "exterior")).toMatchObject({ C_E: 0.85, confidence: "M" });
    expect(() => environmentalFactor("aci440.1r-15", "basalt", "interior")).toThrow(/expected one of aci440.1r-15 glass interior/);
  });

  it("threaded rods count with the area of their thread", () => {
    // 3/4 in. with 10 threads an inch: 0.334 in.2 (widely printed table of unified coarse threads, from memory).
    expect(threadedArea(19.05, 10) / 645.16).toBeCloseTo(0.334, 3);
    expect(() => threadedArea(2, 10)).toThrow(RangeError);
  });
});

describe("local bond law of the Model Code", () => {
  it("good and other conditions, and the slip at splitting", () => {
    // Table 6.1-1, from memory; 2.5 sqrt(36) = 15 MPa; half the strength at 0.5^2.5 of the slip.
    expect(localBondLaw({ f_cm: 36, goodConditions: true, clearRibSpacing_mm: 10 })).toEqual({ tau1: 15, s1: 1, s2: 2, s3: 10, tau3: 6, alpha: 0.4 });
    expect(localBondLaw({ f_cm: 36, goodConditions: false, clearRibSpacing_mm: 10 })).toMatchObject({ tau1: 7.5, s1: 1.8, s2: 3.6 });
    expect(slipAtSplitting(7.5, { tau1: 15, s1: 1, alpha: 0.4 })).toBeCloseTo(0.5 ** 2.5, 12);
    expect(() => localBondLaw({ f_cm: 36, goodConditions: true, clearRibSpacing_mm: 1 })).toThrow(RangeError);
    expect(() => slipAtSplitting(16, { tau1: 15, s1: 1, alpha: 0.4 })).toThrow(RangeError);
  });
});
