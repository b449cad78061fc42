import { expect, it } from "vitest";
import { toleranceFactor } from "../../../kernel-lib/src/statistics/tolerance";

it("one-sided tolerance factor of the NIST/SEMATECH e-handbook, 7.2.6.3: n 43, 90 % of the population at 99 %", () => {
  const k = toleranceFactor({ n: 43, fractile: 0.1, confidence: 0.99 });
  // scipy.stats.nct.ppf(.99, 42, norm.ppf(.9) * sqrt(43)) / sqrt(43). The handbook's 1.8752 is by
  // its approximate formula.
  expect(k).toBeCloseTo(1.8739536058511987, 9);
  expect(Math.abs(k - 1.8752)).toBeLessThan(0.0015);
  // Its lower limit for mean 97.07 and SD 0.0268 is 97.01975, by the approximation too.
  expect(97.07 - k * 0.0268).toBeCloseTo(97.01975, 3.9);
});
