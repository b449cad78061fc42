import { describe, expect, it } from "vitest";
import {
  designLimitState,
  firstOrderReliability,
  loadModel,
  lognormalReliabilityIndex,
  marginal,
  simulatedReliability,
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
    expect(never.reading).toContain("must not be used");
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
      status: "cannot be estimated",
      failureProbability: null,
    });
    expect(() => simulatedReliability(state, { samples: 10 })).toThrow("10 samples");
  });
});

// Printed by recomputed/failure-probability.py
const INTEGRATED = 3.65670665664e-5;
