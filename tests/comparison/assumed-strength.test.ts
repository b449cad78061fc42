import { describe, expect, it } from "vitest";
import { assumedStrength, compare } from "../../kernel-lib/src/comparison";
import { normaliseTests, parseTests, TO_CYLINDER } from "../../kernel-lib/src/dataset";
import { code } from "../../kernel-lib/src/provisions";
import { table } from "../provisions/specimens";
import { expectSaid } from "../says";

const bond = {
  bar_material: "gfrp",
  installation: "cast_in",
  setup: "beam_end",
  failure_mode: "bond",
  cover_mm: 80,
  bar_diameter_mm: 16,
  embedment_mm: 320,
  peak_load_kN: 50,
} as const;
const settings = { level: "expected" } as const;

describe("a concrete strength that is taken for a cylinder's", () => {
  it("counts in full, and the means at both ends differ by the root of 0.78, as the mean model goes with the root of the strength", () => {
    const tests = table(
      { ...bond, test_id: "a", concrete_strength_basis: "cylinder_assumed" },
      { ...bond, test_id: "b", concrete_strength_basis: "cylinder" },
    );
    const comparison = compare(tests, code("wambeke-shield-2006"), settings);
    const [first, second] = comparison.evidence;
    expect(first?.ratio).toBe(second?.ratio);
    const found = assumedStrength(comparison, settings)!;
    expect([found.n, found.of]).toEqual([1, 2]);
    expect(found.meanIfCubes / found.mean).toBeCloseTo(1 / Math.sqrt(0.78), 9);
    expectSaid(found.reading, "1 of 2 ratios", "concrete strength", /unknown specimen/);
  });
  it("says nothing where every specimen is stated; unknown stays without a capacity", () => {
    const tests = table(
      { ...bond, test_id: "a", concrete_strength_basis: "cube_150" },
      { ...bond, test_id: "b", concrete_strength_basis: "unknown" },
    );
    const comparison = compare(tests, code("wambeke-shield-2006"), settings);
    expect(comparison.evidence.map(({ row }) => row)).toEqual([0]);
    expect(assumedStrength(comparison, settings)).toBeNull();
  });
  it("carries its uncertainty where a load is normalised: m x 0.22 / sqrt 3", () => {
    expect(TO_CYLINDER.cylinder_assumed).toMatchObject({
      factor: 1,
      relativeUncertainty: 0.22 / Math.sqrt(3),
    });
    const [one] = normaliseTests(table({ ...bond, concrete_strength_basis: "cylinder_assumed" }), {
      quantity: "load",
      by: "concrete",
      reference_MPa: 30,
      exponent: 0.5,
    }).tests;
    expect(one?.relativeUncertainty).toBeCloseTo((0.5 * 0.22) / Math.sqrt(3), 12);
  });
  it("is pointed out when it is read, and so is an unknown one with what to do", () => {
    const header =
      "test_id,study_id,series_id,bar_material,bar_diameter_mm,installation,concrete_strength_MPa,concrete_strength_basis,embedment_mm,setup,action,peak_load_kN,failure_mode";
    const rows = ["cylinder_assumed", "unknown", "unknown"].map(
      (basis, k) => `${String(k)},s,a,gfrp,16,cast_in,30,${basis},80,pullout_block,tension,40,bond`,
    );
    const { diagnostics } = parseTests(
      new TextEncoder().encode([header, ...rows].join("\n")),
      "t.csv",
    );
    expect(
      diagnostics.map(({ severity, rule, message }) => [
        severity,
        rule,
        message.split(":")[0],
        /\d rows?/.exec(message)?.[0],
      ]),
    ).toEqual([
      ["information", "assumed-strength-basis", "t.csv", "1 row"],
      ["information", "unknown-strength-basis", "t.csv", "2 rows"],
    ]);
  });
});
