import { describe, expect, it } from "vitest";
import {
  bondSlipCurve,
  fitBondSlip,
  parseCurve,
  reduceCurve,
  type BondSlipFit,
} from "../../kernel-lib/src/curves";
import { bpeStress, cmrStress, modifiedBpeStress } from "../../kernel-lib/src/dataset";
import {
  CURVE_TRUTH,
  demonstrationCurves,
  generateDemonstration,
} from "../../kernel-lib/src/demonstration";
import { createRandom } from "../../kernel-lib/src/statistics/random";

const value = (fit: BondSlipFit, name: string): number =>
  fit.parameters.find((p) => p.name === name)?.value ?? NaN;

describe("bond laws", () => {
  it("BPE with the parameters of 1983 (steel, fc 30)", () => {
    // Eligehausen, Popov, Bertero (1983): tau1 13.5, tau3 5.0, s1 1.0, s2 3.0, s3 10.5, alpha 0.4
    const steel = { tau1: 13.5, tau3: 5, s1: 1, s2: 3, s3: 10.5, alpha: 0.4 };
    expect([0, 1, 2, 3, 6.75, 10.5, 20].map((s) => bpeStress(s, steel))).toEqual([
      0, 13.5, 13.5, 13.5, 9.25, 5, 5,
    ]);
    expect(bpeStress(0.1, steel)).toBeCloseTo(13.5 * 0.3981071705534972, 12);
  });

  it("modified BPE reaches tau3 at s3 = s1 (1 + (1 - tau3/tau1)/p)", () => {
    const law = { tau1: 12, s1: 0.8, alpha: 0.3, p: 0.25, tau3: 6 };
    expect(modifiedBpeStress(0.8 * 3, law)).toBeCloseTo(6, 12);
    expect(modifiedBpeStress(0.8 * 2, law)).toBeCloseTo(9, 12);
    expect(modifiedBpeStress(10, law)).toBe(6);
  });

  it("CMR at s = sr ln 2 is tau1 / 2^beta", () => {
    expect(cmrStress(0.3 * Math.LN2, { tau1: 10, sr: 0.3, beta: 2 })).toBeCloseTo(2.5, 12);
  });
});

describe("fits", () => {
  it("find the parameters of exact curves", () => {
    const slip_mm = Float64Array.from({ length: 200 }, (_, i) => i / 30);
    const modified = { tau1: 14, s1: 0.7, alpha: 0.31, p: 0.12, tau3: 5.5 };
    const fit = fitBondSlip(
      { slip_mm, bond_stress_MPa: slip_mm.map((s) => modifiedBpeStress(s, modified)) },
      "modified_bpe",
    );
    for (const [name, truth] of Object.entries(modified))
      expect(value(fit, name) / truth, name).toBeCloseTo(1, 4);
    const cmr = { tau1: 15, sr: 0.25, beta: 0.6 };
    const rising = slip_mm.slice(0, 60);
    const ascent = fitBondSlip(
      { slip_mm: rising, bond_stress_MPa: rising.map((s) => cmrStress(s, cmr)) },
      "cmr",
    );
    for (const [name, truth] of Object.entries(cmr))
      expect(value(ascent, name) / truth, name).toBeCloseTo(1, 4);
    const bpe = fitBondSlip(
      {
        slip_mm,
        bond_stress_MPa: slip_mm.map((s) =>
          bpeStress(s, { tau1: 12, s1: 0.6, s2: 1.5, s3: 4, tau3: 4, alpha: 0.4 }),
        ),
      },
      "bpe",
    );
    expect(value(bpe, "tau1")).toBeCloseTo(12, 2);
    expect(value(bpe, "alpha")).toBeCloseTo(0.4, 2);
    expect(value(bpe, "s1") + value(bpe, "plateau")).toBeCloseTo(1.5, 1);
  });

  it("hold the truth in their 95 % intervals about 95 % of the time when readings scatter independently", () => {
    const random = createRandom("bond-slip coverage");
    const truth = { tau1: 15, sr: 0.25, beta: 0.6 };
    const slip_mm = Float64Array.from({ length: 41 }, (_, i) => i / 40);
    let hits = 0;
    for (let k = 0; k < 200; k += 1) {
      const bond_stress_MPa = slip_mm.map((s) =>
        Math.max(0, cmrStress(s, truth) + (s === 0 ? 0 : 0.15 * random.normal())),
      );
      // The last reading is made the highest so that every trial fits the same branch.
      bond_stress_MPa[40] = Math.max(...bond_stress_MPa) + 1e-9;
      const beta = fitBondSlip({ slip_mm, bond_stress_MPa }, "cmr").parameters[2];
      if (beta !== undefined && beta.low <= truth.beta && truth.beta <= beta.high) hits += 1;
    }
    // Binomial(200, 0.95): below 179 with a probability of 0.1 % (R: qbinom(0.001, 200, 0.95) =
    // 179); 200 of 200 would be too wide.
    expect(hits).toBeGreaterThanOrEqual(179);
    expect(hits).toBeLessThan(200);
  });

  it("recover the law of the invented records", () => {
    const { tests } = generateDemonstration(2026);
    for (const curve of demonstrationCurves(tests, 2026)) {
      const test = tests.find(({ test_id }) => test_id === curve.test_id)!;
      const reduced = reduceCurve(
        parseCurve(new TextEncoder().encode(curve.csv), curve.file).curve!,
        {
          freeLength_mm: CURVE_TRUTH.freeLength_mm,
          barModulus_GPa: test.bar_modulus_GPa!,
          barArea_mm2: test.bar_area_mm2!,
        },
      );
      const fit = fitBondSlip(
        bondSlipCurve(reduced, test.bar_diameter_mm, test.embedment_mm),
        "modified_bpe",
      );
      expect(
        Math.abs(value(fit, "alpha") - CURVE_TRUTH.ascentExponent),
        curve.test_id,
      ).toBeLessThan(0.03);
      expect(Math.abs(value(fit, "p") / CURVE_TRUTH.descentSlope - 1), curve.test_id).toBeLessThan(
        0.1,
      );
      expect(
        Math.abs(value(fit, "tau3") / value(fit, "tau1") / CURVE_TRUTH.residualShare - 1),
        curve.test_id,
      ).toBeLessThan(0.02);
    }
  });

  it("say what a record lacks", () => {
    const slip_mm = Float64Array.from({ length: 20 }, (_, i) => i / 10);
    expect(() =>
      fitBondSlip({ slip_mm, bond_stress_MPa: slip_mm.map((s) => 5 * s) }, "modified_bpe"),
    ).toThrow(/descending branch/);
    expect(() =>
      fitBondSlip({ slip_mm: slip_mm.slice(0, 4), bond_stress_MPa: slip_mm.slice(0, 4) }, "cmr"),
    ).toThrow(/needs 6 readings/);
  });
});
