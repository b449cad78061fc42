import { describe, expect, it } from "vitest";
import {
  designLimitState,
  factorForTargetIndex,
  factoredLoad,
  governingCombination,
  firstOrderLognormalIndex,
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
  type LimitState,
} from "../../../kernel-lib/src/proposals/reliability";
import { createRandom, gumbel, normal, weibull } from "../../../kernel-lib/src/statistics";

const difference = ([r = 0, q = 0]: readonly number[]): number => r - q;
const pair = (r: ReturnType<typeof normal>, q: ReturnType<typeof normal>): LimitState => ({
  names: ["R", "Q"],
  marginals: [r, q],
  g: difference,
});

describe("firstOrderReliability against closed forms", () => {
  it("a linear limit state of normal variables: β = (Σ a_i μ_i)/√Σ(a_i σ_i)²", () => {
    const random = createRandom("linear limit states");
    for (let k = 0; k < 200; k++) {
      const n = 2 + random.integer(5);
      const [a, mean, sd] = [0, 0, 0].map(() =>
        Array.from({ length: n }, () => 0.5 + random.uniform()),
      ) as [number[], number[], number[]];
      a[0] = n * 3;
      for (let i = 1; i < n; i++) a[i] = -(a[i] ?? 0);
      const exact =
        a.reduce((sum, value, i) => sum + value * (mean[i] ?? 0), 0) /
        Math.hypot(...a.map((value, i) => value * (sd[i] ?? 0)));
      const found = firstOrderReliability({
        names: a.map((_, i) => `x${i}`),
        marginals: mean.map((value, i) => normal(value, sd[i])),
        g: (x) => x.reduce((sum, value, i) => sum + value * (a[i] ?? 0), 0),
      });
      expect(found.status).toBe("converged");
      expect(Math.abs(found.index - exact)).toBeLessThan(1e-10);
      expect(found.sensitivity.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    }
  });
  it("a log-normal pair: the exact index of the difference and of the ratio", () => {
    const random = createRandom("log-normal pairs");
    for (let k = 0; k < 200; k++) {
      const statistics = {
        resistanceMean: 1 + 3 * random.uniform(),
        resistanceCov: 0.05 + 0.3 * random.uniform(),
        loadMean: 0.5 + random.uniform(),
        loadCov: 0.05 + 0.4 * random.uniform(),
      };
      const marginals = [
        marginal("lognormal", statistics.resistanceMean, statistics.resistanceCov),
        marginal("lognormal", statistics.loadMean, statistics.loadCov),
      ];
      const exact = lognormalReliabilityIndex(statistics);
      for (const g of [
        difference,
        ([r = 0, q = 0]: readonly number[]): number => Math.log(r / q),
      ]) {
        const found = firstOrderReliability({ names: ["R", "Q"], marginals, g });
        expect(found.status).toBe("converged");
        expect(Math.abs(found.index - exact), JSON.stringify(statistics)).toBeLessThan(1e-10);
      }
    }
  });
  it("a single curved marginal: the failure probability is the marginal's own tail", () => {
    for (const law of [gumbel(3, 0.7), weibull(2, 5)]) {
      for (const limit of [4, 6, 9]) {
        const found = firstOrderReliability({
          names: ["Q"],
          marginals: [law],
          g: ([q = 0]) => limit - q,
        });
        expect(Math.abs(found.failureProbability / law.upperTail(limit) - 1)).toBeLessThan(1e-9);
      }
    }
  });
  it("the textbook product limit state: g = f W − 1140, normal, β = 4.2614", () => {
    // Yield stress 38 ksi (10 %), section modulus 54 in.³ (5 %), moment 1140 kip-in.
    // recomputed/failure-probability.py
    // (scipy minimize of |u|² on g = 0) prints 4.261351.
    const found = firstOrderReliability({
      names: ["f", "W"],
      marginals: [normal(38, 3.8), normal(54, 2.7)],
      g: ([f = 0, w = 0]) => f * w - 1140,
    });
    expect(found.index).toBeCloseTo(4.2614, 3);
    expect(found.sensitivity[0]?.alpha).toBeLessThan(found.sensitivity[1]?.alpha ?? NaN);
  });
  it("means that already fail have a negative index", () => {
    expect(firstOrderReliability(pair(normal(5, 1), normal(10, 1))).index).toBeCloseTo(
      -5 / Math.SQRT2,
      10,
    );
  });
  it("a given gradient changes nothing", () => {
    const state = designLimitState(
      { resistance: { bias: 1.1, cov: 0.15 }, loads: loadModel("nowak-2003") },
      0.7,
      0.5,
    );
    const without: LimitState = { names: state.names, marginals: state.marginals, g: state.g };
    expect(
      Math.abs(firstOrderReliability(state).index - firstOrderReliability(without).index),
    ).toBeLessThan(1e-10);
  });
  it("says when there is no design point", () => {
    const never = firstOrderReliability({
      names: ["x"],
      marginals: [normal()],
      g: ([x = 0]) => 1 + x * x,
    });
    expect(never.status).toBe("not converged");
    expect(never.reading).toContain("not to be used");
    expect(() => firstOrderReliability({ names: [], marginals: [], g: () => 1 })).toThrow(
      "0 names for 0 marginals",
    );
  });
});

describe("simulatedReliability", () => {
  it("agrees with the exact probability within its stated error, crude and by importance", () => {
    const statistics = { resistanceMean: 2, resistanceCov: 0.2, loadMean: 1, loadCov: 0.25 };
    const state = pair(marginal("lognormal", 2, 0.2), marginal("lognormal", 1, 0.25));
    const exact = normal().cdf(-lognormalReliabilityIndex(statistics));
    for (const sampling of ["crude", "importance"] as const) {
      // 40 seeds: the standardised errors must themselves have mean 0 and variance 1.
      const z = Array.from({ length: 40 }, (_, seed) =>
        simulatedReliability(state, { samples: 20_000, seed, sampling }),
      ).map(({ failureProbability: p, standardError: se }) => ((p ?? NaN) - exact) / (se ?? NaN));
      const mean = z.reduce((sum, value) => sum + value, 0) / 40;
      const variance = z.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 39;
      expect(Math.abs(mean), sampling).toBeLessThan(4 / Math.sqrt(40));
      expect(variance, sampling).toBeGreaterThan(0.4);
      expect(variance, sampling).toBeLessThan(2);
    }
  });
  it("with Gumbel load agrees with numerical integration", () => {
    // P(R < D + L) by integrating over R and D for fixed tail of L, scipy: see
    // recomputed/failure-probability.py
    const state = designLimitState(
      { resistance: { bias: 1.1, cov: 0.15 }, loads: loadModel("nowak-2003") },
      0.7,
      0.5,
    );
    const found = simulatedReliability(state, { samples: 200_000, seed: 4 });
    expect(Math.abs((found.failureProbability ?? NaN) - INTEGRATED)).toBeLessThan(
      4 * (found.standardError ?? 0),
    );
    expect((found.standardError ?? NaN) / INTEGRATED).toBeLessThan(0.02);
    expect(found.lower).toBeLessThan(found.upper ?? NaN);
  });
  it("is the same for the same seed and tells when too few failed", () => {
    const state = pair(normal(10, 1), normal(3, 1));
    expect(simulatedReliability(state, { samples: 1000, seed: 3 })).toEqual(
      simulatedReliability(state, { samples: 1000, seed: 3 }),
    );
    expect(simulatedReliability(state, { samples: 1000, sampling: "crude" })).toMatchObject({
      status: "cannot tell",
      failureProbability: null,
    });
    expect(() => simulatedReliability(state, { samples: 10 })).toThrow("10 samples");
  });
});

// Printed by recomputed/failure-probability.py
const INTEGRATED = 3.65670665664e-5;

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
    expect(
      firstOrderLognormalIndex({
        resistanceMean: (bias * 1.4) / rough,
        resistanceCov: cov,
        loadMean: mean,
        loadCov,
      }),
    ).toBeCloseTo(3.2, 12);
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
    ).toContain("nothing was taken out");
  });
  it("marginals have the mean and coefficient of variation asked for", () => {
    for (const kind of ["normal", "lognormal", "gumbel"] as const) {
      const law = marginal(kind, 2.5, 0.3);
      expect(law.mean).toBeCloseTo(2.5, 12);
      expect(law.sd / law.mean).toBeCloseTo(0.3, 12);
    }
  });
});
