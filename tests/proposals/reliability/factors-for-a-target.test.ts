import { describe, expect, it } from "vitest";
import {
  designLimitState,
  factorForTargetIndex,
  factoredLoad,
  governingCombination,
  firstOrderReliability,
  loadModel,
  lognormalReliabilityIndex,
  lognormalResistanceFactor,
  marginal,
  reliabilityOverLoadRatio,
  resistanceStatistics,
  simulatedReliability,
  sumOfLoads,
  withoutMeasurementScatter,
} from "../../../kernel-lib/src/proposals/reliability";

describe("closed forms and factors", () => {
  it("the sheet's case: λ_R 1.1, V_R 0.15, β 3.5, L/D 1, loads of 2003", () => {
    // Python: lam*(1.4/1.025)*exp(-3.5*sqrt(.15**2+VQ**2)), VQ = sqrt((1.05*.1)**2+.18**2)/2.05
    const load = sumOfLoads([
      { mean: 1.05 * 0.5, cov: 0.1 },
      { mean: 0.5, cov: 0.18 },
    ]);
    const resistance = { bias: 1.1, cov: 0.15 };
    expect(
      lognormalResistanceFactor(resistance, factoredLoad(0.5, 0.5), load, 3.5, "first order"),
    ).toBeCloseTo(0.797, 3);
    expect(lognormalResistanceFactor(resistance, factoredLoad(0.5, 0.5), load, 3.5)).toBeCloseTo(
      0.794,
      3,
    );
  });
  it("factor and index are inverse to each other", () => {
    const [bias, cov, mean, loadCov] = [1.2, 0.17, 1.03, 0.14];
    const factor = lognormalResistanceFactor({ bias, cov }, 1.4, { mean, cov: loadCov }, 3.2);
    expect(
      lognormalReliabilityIndex({
        resistanceMean: (bias * 1.4) / factor,
        resistanceCov: cov,
        loadMean: mean,
        loadCov,
      }),
    ).toBeCloseTo(3.2, 12);
    const rough = lognormalResistanceFactor(
      { bias, cov },
      1.4,
      { mean, cov: loadCov },
      3.2,
      "first order",
    );
    // The first-order index ln(R/Q) / sqrt(V_R^2 + V_Q^2), written out.
    expect(Math.log((bias * 1.4) / rough / mean) / Math.hypot(cov, loadCov)).toBeCloseTo(3.2, 12);
  });
  it("the factor found gives the target index at every load ratio, and the least is reported", () => {
    const input = {
      resistance: { bias: 1.1, cov: 0.15 },
      loads: loadModel("nowak-2003"),
      targetIndex: 3.5,
      n: 12,
    };
    const found = factorForTargetIndex(input);
    for (const { variableShare, factor } of found.byShare)
      expect(
        firstOrderReliability(designLimitState(input, factor, variableShare)).index,
      ).toBeCloseTo(3.5, 9);
    expect(found.factor).toBe(Math.min(...found.byShare.map(({ factor }) => factor)));
    expect(
      reliabilityOverLoadRatio(input, found.factor ?? NaN).every(
        ({ reliability }) => reliability.index >= 3.5 - 1e-9,
      ),
    ).toBe(true);
    // Where the variable load rules, the Gumbel tail is heavier than the log-normal closed form
    // grants.
    expect(
      found.byShare
        .filter(({ variableShare }) => variableShare >= 0.5)
        .every(({ factor, closedForm }) => factor < closedForm),
    ).toBe(true);
  });
  it("falls with the target, rises with the bias, and is scale-free", () => {
    const factor = (targetIndex: number, bias = 1.1): number =>
      factorForTargetIndex({
        resistance: { bias, cov: 0.15 },
        loads: loadModel("ellingwood-1980"),
        targetIndex,
        n: 12,
      }).factor ?? NaN;
    expect(factor(3)).toBeGreaterThan(factor(3.5));
    expect(factor(3.5, 2.2) / factor(3.5, 1.1)).toBeCloseTo(2, 9);
  });
  it("derives nothing from two tests", () => {
    expect(
      factorForTargetIndex({
        resistance: { bias: 1, cov: 0.1 },
        loads: loadModel("nowak-2003"),
        targetIndex: 3.5,
        n: 2,
      }),
    ).toMatchObject({ status: "not derived", factor: null });
    expect(() => loadModel("none")).toThrow("expected one of nowak-2003, ellingwood-1980");
  });
  it("1.4D governs below one part of live load in nine, 1.2D + 1.6L above", () => {
    // 1.4 D = 1.2 D + 1.6 L at L/D = 1/8, that is L/(D + L) = 1/9.
    expect(
      [0, 0.05, 0.11, 0.12, 0.5, 1].map((share) => governingCombination(1 - share, share).says),
    ).toEqual(["1.4D", "1.4D", "1.4D", ...new Array<string>(3).fill("1.2D + 1.6L")]);
    expect(factoredLoad(8 / 9, 1 / 9)).toBeCloseTo((1.4 * 8) / 9, 12);
    expect(factoredLoad(0.95, 0.05)).toBeCloseTo(1.33, 12);
    const input = { resistance: { bias: 1.1, cov: 0.15 }, loads: loadModel("nowak-2003") };
    const only16 = { ...input, combinations: [{ says: "1.2D + 1.6L", dead: 1.2, variable: 1.6 }] };
    const at = (one: typeof input, share: number): number =>
      reliabilityOverLoadRatio(one, 0.7, [share])[0]?.reliability.index ?? NaN;
    expect(at(input, 0.02)).toBeGreaterThan(at(only16, 0.02) + 0.3);
    expect(at(input, 0.4)).toBe(at(only16, 0.4));
    expect(at(input, 1 / 9 - 1e-9)).toBeCloseTo(at(input, 1 / 9 + 1e-9), 6);
    expect(
      reliabilityOverLoadRatio(input, 0.7, [0.05, 0.5]).map(({ combination }) => combination),
    ).toEqual(["1.4D", "1.2D + 1.6L"]);
  });
  it("without live load and with a normal resistance the index is the closed form of two normal variables", () => {
    const input = {
      resistance: { bias: 1.1, cov: 0.15 },
      resistanceKind: "normal" as const,
      loads: loadModel("nowak-2003"),
    };
    const r = (1.1 * 1.4) / 0.65;
    const exact = (r - 1.05) / Math.hypot(0.15 * r, 1.05 * 0.1);
    const found = reliabilityOverLoadRatio(input, 0.65, [0])[0]?.reliability;
    expect(Math.abs((found?.index ?? NaN) - exact)).toBeLessThan(1e-10);
    // α_R = −σ_R/√(σ_R² + σ_D²), α_D = σ_D/√(σ_R² + σ_D²).
    expect(found?.sensitivity.map(({ alpha }) => alpha)).toEqual([
      expect.closeTo((-0.15 * r) / Math.hypot(0.15 * r, 0.105), 10),
      expect.closeTo(0.105 / Math.hypot(0.15 * r, 0.105), 10),
    ]);
  });
  it("first-order reliability agrees with simulation at every load ratio, within what a curved limit state leaves", () => {
    const input = { resistance: { bias: 1.1, cov: 0.15 }, loads: loadModel("nowak-2003") };
    for (const share of [0.05, 0.3, 0.7]) {
      const state = designLimitState(input, 0.7, share);
      const [first, simulated] = [
        firstOrderReliability(state),
        simulatedReliability(state, { samples: 60_000, seed: share }),
      ];
      // The simulation is right within its error (integrated above); first order leaves out the
      // curvature of the limit
      // state, which is worth up to 0.053 of the index here: no theory gives this limit, it was
      // read off.
      expect((simulated.upper ?? NaN) - (simulated.lower ?? NaN)).toBeLessThan(0.02);
      expect(Math.abs(first.index - (simulated.index ?? NaN))).toBeLessThan(0.06);
    }
  });
  it("the first-order scatter of R = M F P is that of the product within 2 %", () => {
    // Exact for independent factors: V² = Π(1 + V_i²) − 1.
    const parts = {
      material: { bias: 1.1, cov: 0.12 },
      fabrication: { bias: 1, cov: 0.05 },
      professional: { bias: 1.2, cov: 0.16 },
    };
    const exact = Math.sqrt((1 + 0.12 ** 2) * (1 + 0.05 ** 2) * (1 + 0.16 ** 2) - 1);
    expect(Math.abs(resistanceStatistics(parts).cov / exact - 1)).toBeLessThan(0.02);
    expect(resistanceStatistics(parts)).toMatchObject(parts);
  });
  it("takes the measurement out, but not more than there is", () => {
    expect(withoutMeasurementScatter(0.13, 0.05)).toBeCloseTo(0.12, 12);
    expect(withoutMeasurementScatter(0.03, 0.05)).toBeNull();
    const parts = resistanceStatistics({
      professional: { bias: 1.1, cov: 0.13 },
      specimenCov: 0.05,
      material: { bias: 1.2, cov: 0.09 },
      fabrication: { bias: 0.98, cov: 0.08 },
    });
    expect(parts.bias).toBeCloseTo(1.1 * 1.2 * 0.98, 12);
    expect(parts.cov).toBeCloseTo(0.17, 12);
    expect(
      resistanceStatistics({ professional: { bias: 1, cov: 0.03 }, specimenCov: 0.05 }).warnings[0],
    ).toContain("nothing was removed");
  });
  it("marginals have the mean and coefficient of variation asked for", () => {
    for (const kind of ["normal", "lognormal", "gumbel"] as const) {
      const law = marginal(kind, 2.5, 0.3);
      expect(law.mean).toBeCloseTo(2.5, 12);
      expect(law.sd / law.mean).toBeCloseTo(0.3, 12);
    }
  });
});
