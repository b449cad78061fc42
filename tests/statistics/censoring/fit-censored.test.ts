import { describe, expect, it } from "vitest";
import {
  fitCensored,
  type CensoredDistribution,
  type CensoredFit,
} from "../../../kernel-lib/src/statistics/censoring";
import { createRandom } from "../../../kernel-lib/src/statistics/random";
import { censored, clusters, values } from "./right-censored-loads";

function fit(input: Parameters<typeof fitCensored>[0]): CensoredFit {
  const result = fitCensored(input);
  if (result.status !== "ok") throw new Error(result.reading);
  return result;
}
const near = (value: number, expected: number, relative: number): void => {
  expect(Math.abs(value - expected) / Math.abs(expected)).toBeLessThan(relative);
};

describe("fitCensored against R 4.2 survival::survreg", () => {
  // survreg(Surv(x, d) ~ 1, dist = ..., control = list(rel.tolerance = 1e-14)); $coef, $scale,
  // $loglik[2], $var
  const reference: Record<CensoredDistribution, number[]> = {
    normal: [
      102.907913964906, 12.300578281513, -34.7396035891174, 14.938513508696838, 0.2459350828348228,
      0.0705687148726376,
    ],
    lognormal: [
      4.62945647002788, 0.12117188583863, -34.3021383912951, 0.0014486775549168,
      0.00243559057739384, 0.07074167627129724,
    ],
    weibull: [
      4.68537667964953, 0.11382895972797, -35.6209542154695, 0.001623251851231947,
      0.000521047399532806, 0.074938510213753987,
    ],
  };
  for (const distribution of ["normal", "lognormal", "weibull"] as const) {
    it(`${distribution}: estimates, log-likelihood, covariance`, () => {
      const f = fit({ values, censored, distribution });
      const expected = reference[distribution];
      near(f.location, expected[0]!, 1e-10);
      near(f.scale, expected[1]!, 1e-9);
      near(f.logLikelihood, expected[2]!, 1e-11);
      near(f.covariance[0]!, expected[3]!, 1e-7);
      near(f.covariance[1]!, expected[4]!, 1e-6);
      near(f.covariance[3]!, expected[5]!, 1e-7);
      expect(f).toMatchObject({ n: 12, failures: 8, censoredCount: 4 });
    });
  }

  it("profile-likelihood intervals of the normal (uniroot on optimize() of the R log-likelihood)", () => {
    const [mean, sd] = fit({ values, censored, distribution: "normal" }).parameters;
    near(mean!.lower, 95.2949859130567, 1e-8);
    near(mean!.upper, 112.80494587265, 1e-8);
    near(sd!.lower, 7.870453008051, 1e-7);
    near(sd!.upper, 22.8995183250104, 1e-7);
  });

  it("cluster-robust covariance: survreg(cluster =, robust = TRUE)$var times G / (G - 1) = 4 / 3", () => {
    const f = fit({
      values,
      censored,
      clusters,
      distribution: "lognormal",
      clusterMethod: "sandwich",
    });
    near(f.covariance[0]!, (0.000438320546350233 * 4) / 3, 1e-7);
    near(f.covariance[1]!, (0.0019896829702488 * 4) / 3, 1e-7);
    near(f.covariance[3]!, (0.0398676093559426 * 4) / 3, 1e-7);
    expect(f.warnings.join()).toContain("Only 4 clusters");
  });
});

describe("fitCensored without censoring agrees with closed forms", () => {
  const none = values.map(() => false);
  const n = values.length;
  it("normal: mean and SD with divisor n; variances sigma^2 / n and 1 / (2 n)", () => {
    const f = fit({ values, censored: none, distribution: "normal" });
    const mean = values.reduce((a, b) => a + b) / n;
    const variance = values.reduce((a, b) => a + (b - mean) ** 2, 0) / n;
    near(f.mean, mean, 1e-12);
    near(f.sd, Math.sqrt(variance), 1e-10);
    near(f.covariance[0]!, variance / n, 1e-8);
    near(f.covariance[3]!, 1 / (2 * n), 1e-8);
    // Profile interval in closed form: n ln(1 + (m - mean)^2 / variance) = chi-square quantile
    // 3.841458820694124 (R qchisq(.95, 1)).
    near(
      f.parameters[0]!.upper,
      mean + Math.sqrt(variance * Math.expm1(3.841458820694124 / n)),
      1e-8,
    );
  });
  it("lognormal: the normal fit of the logarithms, moments in closed form", () => {
    const f = fit({ values, censored: none, distribution: "lognormal" });
    const logs = fit({ values: values.map(Math.log), censored: none, distribution: "normal" });
    near(f.location, logs.location, 1e-12);
    near(f.mean, Math.exp(logs.location + logs.scale ** 2 / 2), 1e-10);
    near(f.quantile(0.5), Math.exp(logs.location), 1e-12);
  });
  it("Weibull: the scale meets its own score equation", () => {
    const f = fit({ values, censored, distribution: "weibull" });
    // Score of the scale: eta^k = sum y^k / failures, over all rows.
    const k = 1 / f.scale;
    near(Math.exp(f.location) ** k, values.reduce((s, v) => s + v ** k, 0) / 8, 1e-8);
  });
});

describe("laws of a censored fit", () => {
  const random = createRandom("censored laws");
  for (let trial = 0; trial < 20; trial += 1) {
    const n = 4 + random.integer(20);
    const y = Array.from({ length: n }, () => Math.exp(0.2 * random.normal()) * 50);
    const c = y.map((_, i) => i > 1 && random.uniform() < 0.5);
    it(`scale equivariance, order, and censoring never lowers the mean (sample ${trial}, n ${n})`, () => {
      for (const distribution of ["normal", "lognormal", "weibull"] as const) {
        const base = fit({ values: y, censored: c, distribution });
        const scaled = fit({ values: y.map((v) => 1000 * v), censored: c, distribution });
        near(scaled.mean, 1000 * base.mean, 1e-7);
        near(scaled.cov, base.cov, 1e-6);
        const turned = fit({ values: [...y].reverse(), censored: [...c].reverse(), distribution });
        near(turned.quantile(0.05), base.quantile(0.05), 1e-7);
        const taken = fit({ values: y, censored: c.map(() => false), distribution });
        expect(base.location).toBeGreaterThanOrEqual(taken.location - 1e-9);
      }
    });
  }
});

describe("fitCensored where nothing can be estimated", () => {
  const refusal = (
    v: number[],
    c: boolean[],
    distribution: CensoredDistribution = "normal",
  ): string => {
    const r = fitCensored({ values: v, censored: c, distribution });
    expect(r.reading).not.toContain("NaN");
    return r.status === "ok" ? "fitted" : r.reason;
  };
  it("names the reason", () => {
    expect(refusal([], [])).toBe("too few values");
    expect(refusal([NaN, NaN], [false, true])).toBe("too few values");
    expect(refusal([5], [true])).toBe("nothing failed");
    expect(refusal([5, 6, 7], [true, true, true])).toBe("nothing failed");
    expect(refusal([5, 6, 7], [false, true, true])).toBe("too few failures");
    expect(refusal([5, 5, 7], [false, false, true])).toBe("no spread");
    expect(refusal([5, -1, 7], [false, false, true], "lognormal")).toBe("values not positive");
    expect(refusal([5, 0, 7], [false, false, false], "weibull")).toBe("values not positive");
    expect(refusal([5, 6], [false, false])).toBe("fitted");
  });
  it("sets missing values aside and says so", () => {
    const f = fit({
      values: [...values, NaN],
      censored: [...censored, false],
      distribution: "normal",
    });
    expect(f.excluded).toEqual([{ row: 12, reason: "no finite value" }]);
    near(f.mean, 102.907913964906, 1e-10);
    expect(f.reading).toContain("1 row excluded");
  });
  it("warns above half censored and below five failures", () => {
    const f = fit({
      values: [5, 6, 7, 8, 9, 10, 11],
      censored: [false, false, true, true, true, true, true],
      distribution: "normal",
    });
    expect(f.warnings.join()).toContain("71 %");
    expect(f.warnings.join()).toContain("Only 2 failures");
  });
  it("refuses columns of different length", () => {
    expect(() => fitCensored({ values: [1, 2], censored: [true], distribution: "normal" })).toThrow(
      "expected 2",
    );
  });
});
