import { describe, expect, it } from "vitest";
import {
  marginal,
  simulatedReliability,
  type LimitState,
} from "../../../kernel-lib/src/proposals/reliability";
import { exponentialColumn } from "../../../kernel-lib/src/proposals/reliability/exponential-column";
import {
  normalSpaceColumn,
  transformColumn,
} from "../../../kernel-lib/src/proposals/reliability/normal-space-columns";
import { normalSpaceVariable } from "../../../kernel-lib/src/proposals/reliability/standard-normal-space";
import {
  createRandom,
  gumbel,
  lognormal,
  normal,
  weibull,
  type Distribution,
} from "../../../kernel-lib/src/statistics";

describe("simulation in blocks", () => {
  it("refuses a limit state that is not a number", () => {
    expect(() =>
      simulatedReliability(
        { names: ["x"], marginals: [normal()], g: ([x = 0]) => Math.sqrt(x) },
        { sampling: "crude" },
      ),
    ).toThrow("not a number");
  });
});

describe("whole columns", () => {
  it.each<[string, Distribution, number]>([
    ["normal", normal(3, 2), 1e-14],
    ["log-normal", lognormal(0.1, 0.3), 4e-15],
    ["Gumbel", gumbel(3, 0.7), 1e-10],
    ["Weibull", weibull(2, 5), 1e-10],
  ])("%s: x of a column is that of each number", (_, law, tolerance) => {
    const variable = normalSpaceVariable(law);
    for (const centre of [0, 2.37, -3.1]) {
      const column = normalSpaceColumn(law, centre)!;
      const v = Float64Array.from({ length: 2001 }, (__, k) => (k - 1000) / 170);
      const x = new Float64Array(v.length);
      transformColumn(column, v, x);
      const worst = v.reduce((most, at, k) => {
        const exact = variable.x(centre + at);
        return Math.max(most, Math.abs(x[k]! - exact) / (law.sd + Math.abs(exact)));
      }, 0);
      expect(worst).toBeLessThanOrEqual(tolerance);
    }
  });
  it("a marginal with a kink is left to be transformed number by number", () => {
    const base = normal();
    const kinked = (z: number): number => (z < 0.3 ? z : 0.3 + 40 * (z - 0.3));
    const law: Distribution = {
      ...base,
      range: [-Infinity, Infinity],
      quantile: (p) => kinked(base.quantile(p)),
      upperQuantile: (p) => kinked(base.upperQuantile(p)),
    };
    expect(normalSpaceColumn(law, 0)).toBeNull();
    const found = simulatedReliability(
      { names: ["x"], marginals: [law], g: ([x = 0]) => x + 1 },
      { samples: 50_000, sampling: "crude" },
    );
    expect(Math.abs((found.failureProbability ?? NaN) - base.cdf(-1))).toBeLessThan(
      4 * (found.standardError ?? NaN),
    );
  });
  it("the exponential of a column is that of the language within 1e-15, far ends included", () => {
    const random = createRandom("exponentials");
    for (const [at0, slope] of [
      [0.1, 0.15],
      [-3, 2],
      [200, 30],
      [-400, 15],
      [650, 5],
      [-720, 1],
    ] as const) {
      const v = Float64Array.from({ length: 4000 }, () => 28 * random.uniform() - 14);
      const out = new Float64Array(v.length);
      exponentialColumn(at0, slope, 14, v, out);
      const off = v.filter((value, k) => {
        const exact = Math.exp(at0 + slope * value);
        return !(Math.abs(out[k]! - exact) <= 1e-15 * exact || out[k] === exact);
      });
      expect(off).toEqual(new Float64Array(0));
    }
  });
  it("log-normal probabilities out to 1 in 10⁹ are met by importance sampling", () => {
    const state: LimitState = {
      names: ["R"],
      marginals: [marginal("lognormal", 2, 0.2)],
      g: ([r = 0]) => r - 0.6,
    };
    const exact = marginal("lognormal", 2, 0.2).cdf(0.6);
    const found = simulatedReliability(state, { samples: 100_000, seed: 3 });
    expect(exact).toBeLessThan(1e-8);
    expect(Math.abs((found.failureProbability ?? NaN) - exact)).toBeLessThan(
      4 * (found.standardError ?? NaN),
    );
    expect((found.standardError ?? NaN) / exact).toBeLessThan(0.02);
  });
});
