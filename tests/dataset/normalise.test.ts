import { describe, expect, it } from "vitest";
import {
  fitStrengthExponent,
  normaliseTests,
  normaliseToStrength,
  TestTable,
  TO_CYLINDER,
  type TestRowInput,
} from "../../kernel-lib/src/dataset";
import { createRandom } from "../../kernel-lib/src/statistics/random";

describe("normalisation", () => {
  it("gives the value, the normalised value and the factor", () => {
    expect(normaliseToStrength(50, 40, 10, 0.5)).toEqual({
      value: 50,
      normalised: 25,
      factor: 0.5,
      exponent: 0.5,
      reference: 10,
    });
    expect(normaliseToStrength(50, 40, 10, 0).normalised).toBe(50);
    expect(() => normaliseToStrength(50, 0, 10, 0.5)).toThrow(/expected both above 0/);
  });

  it("there and back is the same", () => {
    const random = createRandom("normalise");
    for (let k = 0; k < 200; k += 1) {
      const [a, b, m] = [10 + 90 * random.uniform(), 10 + 90 * random.uniform(), random.uniform()];
      expect(
        normaliseToStrength(normaliseToStrength(7, a, b, m).normalised, b, a, m).normalised,
      ).toBeCloseTo(7, 12);
    }
  });

  it("fits the exponent as R does", () => {
    // R: summary(lm(log(c(30, 36, 41, 44, 52)) ~ log(c(20, 28, 35, 42, 60))))$coefficients
    const fit = fitStrengthExponent([30, 36, 41, 44, 52], [20, 28, 35, 42, 60]);
    expect(fit.exponent).toBeCloseTo(0.500259726068581, 10);
    expect(fit.standardError).toBeCloseTo(0.0184170141190809, 10);
    // R: summary(lm(log(y) ~ log(f) + factor(g)))$coefficients, y = 30 36 41 44 52 60 66 75, f = 20
    // 28 35 42 twice, g = 1 x4, 2 x4
    const within = fitStrengthExponent(
      [30, 36, 41, 44, 52, 60, 66, 75],
      [20, 28, 35, 42, 20, 28, 35, 42],
      ["a", "a", "a", "a", "b", "b", "b", "b"],
    );
    expect(within.exponent).toBeCloseTo(0.503116990465979, 12);
    expect(within.standardError).toBeCloseTo(0.0231148458077599, 12);
    expect(() => fitStrengthExponent([1, 2], [1, 2])).toThrow(/3 tests or more/);
    expect(() => fitStrengthExponent([1, 2, 3], [5, 5, 5])).toThrow(/do not vary/);
  });

  it("converts strength bases within the classes of EN 206", () => {
    // EN 206, Table 12: C12/15 to C50/60, characteristic cylinder / 150 mm cube
    for (const [cylinder, cube] of [
      [12, 15],
      [16, 20],
      [20, 25],
      [25, 30],
      [30, 37],
      [35, 45],
      [40, 50],
      [45, 55],
      [50, 60],
    ] as const)
      expect(Math.abs((TO_CYLINDER.cube_150.factor * cube) / cylinder - 1)).toBeLessThan(0.06);
    expect(TO_CYLINDER.cylinder).toMatchObject({ factor: 1, relativeUncertainty: 0 });
    expect(TO_CYLINDER.cube_200.factor).toBe(0.85);
    expect("unknown" in TO_CYLINDER).toBe(false);
  });
});

describe("normalised tests", () => {
  const base: Omit<TestRowInput, "test_id" | "concrete_strength_MPa" | "peak_load_kN"> = {
    study_id: "s",
    series_id: "a",
    bar_material: "gfrp",
    bar_diameter_mm: 16,
    installation: "post_installed",
    concrete_strength_basis: "cylinder",
    embedment_mm: 80,
    setup: "confined_tension",
    action: "tension",
    failure_mode: "bond",
  };
  const table = (rows: ReadonlyArray<Partial<TestRowInput>>) =>
    TestTable.fromRows(
      rows.map((row, i) => ({
        ...base,
        test_id: String(i),
        concrete_strength_MPa: 40,
        peak_load_kN: 50,
        ...row,
      })),
    );

  it("give both values, and carry the uncertainty of the basis: u = m x 0.06 / sqrt 3 for a 150 mm cube", () => {
    const { tests } = normaliseTests(
      table([{ concrete_strength_MPa: 50, concrete_strength_basis: "cube_150" }]),
      { quantity: "load", by: "concrete", reference_MPa: 30, exponent: 0.5 },
    );
    expect(tests[0]).toMatchObject({ value: 50, strength_MPa: 41, reference: 30, exponent: 0.5 });
    expect(tests[0]?.normalised).toBeCloseTo(50 * Math.sqrt(30 / 41), 12);
    expect(tests[0]?.relativeUncertainty).toBeCloseTo((0.5 * 0.06) / Math.sqrt(3), 12);
  });

  it("recover an exponent of 0.3 through studies of different level, with its uncertainty growing away from the reference", () => {
    const random = createRandom("exponent");
    const rows = Array.from({ length: 60 }, (_, i) => {
      const strength = 20 + (i % 6) * 10;
      return {
        study_id: i < 30 ? "a" : "b",
        concrete_strength_MPa: strength,
        peak_load_kN:
          (i < 30 ? 50 : 90) * (strength / 30) ** 0.3 * Math.exp(0.02 * random.normal()),
      };
    });
    const { fit, tests } = normaliseTests(table(rows), {
      quantity: "bond_stress",
      by: "concrete",
      reference_MPa: 30,
      exponent: "fitted",
    });
    expect(Math.abs((fit?.exponent ?? NaN) - 0.3)).toBeLessThan(3 * (fit?.standardError ?? 0));
    expect(fit?.standardError).toBeLessThan(0.02);
    expect(tests[1]?.relativeUncertainty).toBe(0);
    expect(tests[5]?.relativeUncertainty).toBeCloseTo(
      Math.log(70 / 30) * (fit?.standardError ?? NaN),
      12,
    );
    expect(tests[0]?.value).toBeCloseTo(
      (1000 * (rows[0]?.peak_load_kN ?? NaN)) / (Math.PI * 16 * 80),
      12,
    );
  });

  it("by mode: concrete modes by the root, bar modes by the bar's strength, bond not at all", () => {
    const rows = table([
      { failure_mode: "concrete_breakout" },
      { failure_mode: "bar_rupture", bar_strength_MPa: 800 },
      {},
      { excluded: "bent" },
      { concrete_strength_basis: "unknown", failure_mode: "concrete_breakout" },
    ]);
    const concrete = normaliseTests(rows, {
      quantity: "load",
      by: "concrete",
      reference_MPa: 10,
      exponent: "by_mode",
    });
    expect(concrete.tests.map(({ normalised }) => normalised)).toEqual([25, 50]);
    expect(concrete.leftOut.map(({ reason }) => reason)).toEqual([
      "no exponent is agreed for the mode bond: give one or have it fitted",
      "excluded: bent",
      "the basis of the concrete strength is unknown",
    ]);
    const bar = normaliseTests(rows, {
      quantity: "load",
      by: "bar",
      reference_MPa: 400,
      exponent: "by_mode",
    });
    expect(bar.tests.map(({ index, normalised }) => [index, normalised])).toEqual([[1, 25]]);
    expect(
      normaliseTests(rows, {
        quantity: "load",
        by: "concrete",
        reference_MPa: 10,
        exponent: "by_mode",
        unknownBasis: "as_cylinder",
      }).tests,
    ).toHaveLength(3);
  });
});
