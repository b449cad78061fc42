import { describe, expect, it } from "vitest";
import {
  characteristicCensored,
  type CharacteristicCensored,
  type CharacteristicCensoredInput,
} from "../../../kernel-lib/src/statistics/censoring";
import { censored, clusters, values } from "./right-censored-loads";

function estimate(input: CharacteristicCensoredInput): CharacteristicCensored {
  const r = characteristicCensored(input);
  if (r.status !== "ok") throw new Error(r.reading);
  return r;
}
const none = values.map(() => false);

describe("characteristic value of a right-censored sample", () => {
  it("profile likelihood: R uniroot on the profiled log-likelihood, fractile 5 %, one-sided 90 %", () => {
    const r = estimate({ values, censored, distribution: "normal", method: "likelihood" });
    expect(r.fractileEstimate).toBeCloseTo(82.6752631649588, 6);
    expect(r.characteristic).toBeCloseTo(72.9278366140473, 5);
    expect(r.warnings.join()).toContain("large-sample");
  });
  it("without censoring it is mean - K s exactly: K(n = 12, 5 %, 90 %) = 2.448 (R qt(.9, 11, qnorm(.95) * sqrt(12)) / sqrt(12))", () => {
    const r = estimate({ values, censored: none, distribution: "normal" });
    const mean = values.reduce((a, b) => a + b) / 12;
    const s = Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / 11);
    expect((mean - r.characteristic) / s).toBeCloseTo(2.448, 3);
    expect(r.method).toContain("noncentral-t");
  });
  it("the pivot bootstrap comes to the exact factor when nothing is censored", () => {
    const exact = estimate({ values, censored: none, distribution: "lognormal" });
    const boot = estimate({
      values,
      censored: none,
      distribution: "lognormal",
      method: "pivot_bootstrap",
      resamples: 8000,
      seed: 5,
    });
    expect(Math.abs(boot.factor / exact.factor - 1)).toBeLessThan(0.03);
  });
  it("is below the likelihood bound for few tests, and repeats with its seed", () => {
    const a = estimate({ values, censored, distribution: "normal", seed: 1, resamples: 1000 });
    expect(a.characteristic).toBeLessThan(72.93);
    expect(
      estimate({ values, censored, distribution: "normal", seed: 1, resamples: 1000 })
        .characteristic,
    ).toBe(a.characteristic);
  });
  it("more confidence and a lower fractile never raise it", () => {
    for (const distribution of ["normal", "lognormal", "weibull"] as const)
      for (const method of ["likelihood", "pivot_bootstrap"] as const) {
        const at = (fractile: number, confidence: number): number =>
          estimate({ values, censored, distribution, method, fractile, confidence, resamples: 500 })
            .characteristic;
        expect(at(0.05, 0.9)).toBeLessThan(at(0.05, 0.75));
        expect(at(0.05, 0.9)).toBeLessThan(at(0.1, 0.9));
      }
  });
  it("by series: exact factor for what they are worth, from fits without one series", () => {
    const r = estimate({ values, censored, clusters, distribution: "lognormal" });
    /*
     * R, survival: L <- sapply(unique(g), function(k) ft(which(g != k))), ft the location and ln
     * scale of survreg; C <- 3/4 (L - rowMeans(L)) %*% t(L - rowMeans(L)); s <- exp(4 ln scale - 3
     * rowMeans(L)[2]); n <- min(12, s^2/C[1,1]); nu <- min(11, 1/(2 C[2,2])); exp(location - qt(.9,
     * nu, ncp = -qnorm(.05) sqrt(n))/sqrt(n) s)
     */
    expect(r.characteristic).toBeCloseTo(71.4851470508, 4);
    expect(r.warnings.join()).toContain("few series");
    expect(
      estimate({ values, censored, clusters, distribution: "weibull" }).characteristic,
    ).toBeLessThan(80);
  });
  it("refuses by name, never with NaN", () => {
    for (const [v, c, code] of [
      [[], [], "too few values"],
      [[5, 6], [true, true], "nothing failed"],
      [[5, 6, 7], [false, true, true], "too few failures"],
      [[-5, 6, 7], [false, false, true], "values not positive"],
    ] as const) {
      const r = characteristicCensored({ values: v, censored: c, distribution: "lognormal" });
      expect(r).toMatchObject({ status: "cannot be estimated", reason: code });
      expect(r.reading).toMatch(/cannot be estimated, .*; needed: /);
    }
    expect(
      characteristicCensored({ values, censored, distribution: "normal", method: "exact" }),
    ).toMatchObject({ status: "cannot be estimated", reason: "method does not apply" });
    expect(() =>
      characteristicCensored({ values, censored, distribution: "normal", fractile: 5 }),
    ).toThrow("fractile is 5");
  });
});
