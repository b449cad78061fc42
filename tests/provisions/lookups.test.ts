// Worked values stand in worked/rules.ts; here is what holds for all of a table, and what is
// refused.
import { describe, expect, it } from "vitest";
import {
  astmD7957Bar,
  BAR_SIZES,
  barSize,
  convertStrength,
  environmentalFactor,
  lightweightFactor,
  localBondLaw,
  slipAtSplitting,
  threadedArea,
} from "../../kernel-lib/src/provisions";

describe("bar sizes", () => {
  it("US sizes agree with their rounded metric twins", () => {
    // Metric twins: published table of reinforcing bars (Springer, read on a public page).
    const pairs = [
      ["No. 3", "M10"],
      ["No. 4", "M13"],
      ["No. 5", "M16"],
      ["No. 6", "M19"],
      ["No. 7", "M22"],
      ["No. 8", "M25"],
      ["No. 9", "M29"],
      ["No. 10", "M32"],
      ["No. 11", "M36"],
    ] as const;
    for (const [inch, metric] of pairs) {
      expect(
        Math.abs(barSize("us", inch).diameter_mm - barSize("us_metric", metric).diameter_mm),
        inch,
      ).toBeLessThanOrEqual(0.06);
      expect(
        Math.abs(barSize("us", inch).area_mm2 - barSize("us_metric", metric).area_mm2),
        inch,
      ).toBeLessThanOrEqual(1);
    }
  });

  it("areas are those of the diameters, within the rounding of each table", () => {
    for (const { system, designation, diameter_mm, area_mm2 } of BAR_SIZES) {
      expect(
        Math.abs(area_mm2 / ((Math.PI / 4) * diameter_mm ** 2) - 1),
        `${system} ${designation}`,
      ).toBeLessThan(system === "en" ? 0.002 : 0.035);
    }
  });

  it("names what there is when asked for what there is not", () => {
    expect(() => barSize("en", "22")).toThrow(/expected one of 6, 8, 10/);
    expect(() => astmD7957Bar(12)).toThrow(/expected one of 2, 3/);
  });
});

/** Strength classes of EN 206: characteristic cylinder and 150 mm cube strength, MPa. */
const EN206_CLASSES: readonly (readonly [cylinder: number, cube: number])[] = [
  [12, 15],
  [16, 20],
  [20, 25],
  [25, 30],
  [30, 37],
  [35, 45],
  [40, 50],
  [45, 55],
  [50, 60],
];

describe("concrete", () => {
  it("EN 206 classes agree with the factor from cube to cylinder within its stated 6 %", () => {
    for (const [cylinder, cube] of EN206_CLASSES)
      expect(
        Math.abs(convertStrength(cube, "cube_150", "cylinder").strength_MPa / cylinder - 1),
      ).toBeLessThan(0.06);
  });

  it("conversions there and back, and no guess at an unknown basis", () => {
    expect(
      convertStrength(
        convertStrength(40, "cylinder", "cube_200").strength_MPa,
        "cube_200",
        "cylinder",
      ).strength_MPa,
    ).toBeCloseTo(40, 12);
    expect(() => convertStrength(40, "unknown", "cylinder")).toThrow(
      /expected one of cylinder, cube_150/,
    );
  });

  it("says how sure a conversion is, and adds both steps' doubts", () => {
    expect(convertStrength(37, "cube_150", "cylinder")).toMatchObject({
      within: 0.06,
      rule: expect.stringContaining("EN 206") as string,
    });
    expect(convertStrength(37, "cube_150", "cube_200").within).toBeCloseTo(0.12, 12);
    expect(convertStrength(37, "cylinder", "cylinder")).toEqual({
      strength_MPa: 37,
      rule: "as measured",
      within: 0,
    });
  });

  it("lightweight factors stay between 0.75 and 1 and need a density", () => {
    expect([lightweightFactor(1000), lightweightFactor(2320)]).toEqual([0.75, 1]);
    expect(() => lightweightFactor(0)).toThrow(RangeError);
  });
});

describe("what is not in a table is named with what is", () => {
  it("environmental factors and threads", () => {
    expect(environmentalFactor("aci440.11-22", "glass", "exterior").confidence).toBe("M");
    expect(() => environmentalFactor("aci440.1r-15", "basalt", "interior")).toThrow(
      /expected one of aci440.1r-15 glass interior/,
    );
    expect(() => threadedArea(2, 10)).toThrow(RangeError);
  });
});

describe("local bond law of the Model Code", () => {
  it("refuses ribs closer than the plateau's end and a splitting stress above the strength", () => {
    expect(() => localBondLaw({ f_cm: 36, goodConditions: true, clearRibSpacing_mm: 1 })).toThrow(
      RangeError,
    );
    expect(() => slipAtSplitting(16, { tau1: 15, s1: 1, alpha: 0.4 })).toThrow(RangeError);
  });
});
