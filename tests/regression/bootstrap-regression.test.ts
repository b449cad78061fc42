import { describe, expect, it } from "vitest";
import { bootstrapRegression, leastSquares } from "../../kernel-lib/src/regression";
import { createDrawer, planResample } from "../../kernel-lib/src/statistics/resampling";
import { createRandom } from "../../kernel-lib/src/statistics/random";
import { study, weights, x, y } from "./ratio-rows";

describe("bootstrapRegression", () => {
  for (const given of [undefined, weights]) {
    it(`each replicate is the least-squares fit of its resample (${given === undefined ? "no" : "with"} weights)`, () => {
      const fit = leastSquares({ y, columns: { x }, ...(given === undefined ? {} : { weights: given }) });
      const ours = bootstrapRegression(fit, { seed: 4, resamples: 200 });
      const draw = createDrawer(planResample(y.length), createRandom(4).fork("pairs bootstrap"));
      const slow = Array.from({ length: 200 }, () => {
        const rows = Array.from(draw());
        return leastSquares({ y: rows.map((i) => y[i]!), columns: { x: rows.map((i) => x[i]!) }, ...(given === undefined ? {} : { weights: rows.map((i) => given[i]!) }) }).coefficient("x").estimate;
      }).sort((a, b) => a - b);
      slow.forEach((value, b) => { expect(ours.coefficients[1]!.replicates[b]).toBeCloseTo(value, 11); });
    });
  }
  it("standard error comes near HC3, the interval holds the estimate, whole studies can be drawn", () => {
    const fit = leastSquares({ y, columns: { x } });
    const hc3 = leastSquares({ y, columns: { x }, standardErrors: "hc3" }).coefficient("x").standardError;
    const b = bootstrapRegression(fit, { seed: 1, resamples: 4000 }).coefficients[1]!;
    expect(Math.abs(b.standardError / hc3 - 1)).toBeLessThan(0.15);
    expect(b.lower).toBeLessThan(b.estimate);
    expect(bootstrapRegression(fit, { seed: 1, clusters: study }).warnings.join()).toContain("Only 6 units");
  });
  it("refuses when resamples do not determine the coefficients", () => {
    const fit = leastSquares({ y, columns: { x, single: y.map((_, i) => (i === 0 ? 1 : 0)) } });
    expect(() => bootstrapRegression(fit, { seed: 1 })).toThrow("do not determine the coefficients");
  });
});
