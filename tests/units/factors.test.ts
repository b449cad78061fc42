import { describe, expect, it } from "vitest";
import {
  canonicalUnit,
  convertUnit,
  MPA_PER_PSI,
  splitColumnName,
  unitFactor,
} from "../../kernel-lib/src/units";

describe("unit factors", () => {
  // NIST SP 811 (2008), Appendix B.8: exact factors in bold there, the others to seven digits.
  it.each([
    ["in", "mm", 25.4, 0],
    ["ft", "mm", 304.8, 0],
    ["in2", "mm2", 645.16, 0],
    ["lbf", "N", 4.448222, 1e-6],
    ["kip", "kN", 4.448222, 1e-6],
    ["psi", "Pa", 6894.757, 1e-3],
    ["ksi", "MPa", 6.894757, 1e-6],
    ["kgf", "N", 9.80665, 0],
    ["kgf/cm2", "Pa", 98066.5, 1e-9],
  ])("one %s in %s", (from, to, factor, tolerance) => {
    expect(Math.abs(unitFactor(from, to) - factor)).toBeLessThanOrEqual(tolerance);
  });

  it("has 0.45359237 kg x 9.80665 m/s2 as the pound-force", () => {
    expect(unitFactor("lbf", "N")).toBeCloseTo(0.45359237 * 9.80665, 13);
    expect(MPA_PER_PSI).toBeCloseTo(4.4482216152605 / 645.16, 15);
  });

  it("goes there and back for every pair of one dimension", () => {
    for (const family of [
      ["mm", "cm", "m", "um", "in", "ft"],
      ["N", "kN", "MN", "lbf", "kip", "kgf", "tf"],
      ["Pa", "kPa", "MPa", "GPa", "psi", "ksi", "Msi"],
    ]) {
      for (const a of family)
        for (const b of family) {
          expect(unitFactor(a, b) * unitFactor(b, a)).toBeCloseTo(1, 14);
          expect(convertUnit(convertUnit(123.456, a, b), b, a) / 123.456).toBeCloseTo(1, 14);
        }
    }
  });

  it("refuses unknown units and mixed dimensions", () => {
    expect(() => unitFactor("furlong", "mm")).toThrow(/unknown unit "furlong"/);
    expect(() => unitFactor("psi", "mm")).toThrow(/stress.*length/);
  });
});

describe("unit spellings", () => {
  it.each([
    ["N/mm2", "MPa"],
    ["kips", "kip"],
    ["lbs", "lbf"],
    ["in.", "in"],
    ["in.²", "in2"],
    ["%", "percent"],
    ["mpa", "MPa"],
    ["KN", "kN"],
    ["µm", "um"],
  ])("reads %s as %s", (typed, unit) => {
    expect(canonicalUnit(typed)).toBe(unit);
  });
  it("leaves alone what has two readings", () => {
    for (const typed of ["mn", "t", "bar", "pounds per foot"])
      expect(canonicalUnit(typed)).toBeNull();
  });
});

describe("units in column names", () => {
  it.each([
    ["peak_load_lbf", "peak_load", "lbf"],
    ["embedment_in", "embedment", "in"],
    ["concrete_strength_psi", "concrete_strength", "psi"],
    ["Peak load (kN)", "peak_load", "kN"],
    ["Embedment [in.]", "embedment", "in"],
    ["bar_area_in2", "bar_area", "in2"],
    ["Bar tensile elastic modulus (GPa)", "bar_tensile_elastic_modulus", "GPa"],
    ["test_id", "test_id", null],
    ["group_nx", "group_nx", null],
    ["remarks (free text)", "remarks_free_text", null],
  ])("%s", (name, quantity, unit) => {
    expect(splitColumnName(name)).toEqual({ quantity, unit });
  });
});
