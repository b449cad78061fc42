import { describe, expect, it } from "vitest";
import { analysisOfVariance } from "../../../kernel-lib/src/statistics/comparison";
import { correctDigits } from "../../regression/correct-digits";
import { silicon, silver, simonLesageSets } from "./nist-anova-sets";

describe("analysis of variance: NIST StRD", () => {
  for (const set of [silicon, silver, ...simonLesageSets]) {
    it(`${set.name}: F to ${set.digits} digits`, () => {
      const result = analysisOfVariance(set.samples);
      if (result.status !== "ok") throw new Error(result.reading);
      const n = Object.values(set.samples).reduce((sum, values) => sum + values.length, 0);
      expect([result.n, result.numeratorDegrees, result.denominatorDegrees]).toEqual([
        n,
        Object.keys(set.samples).length - 1,
        n - Object.keys(set.samples).length,
      ]);
      expect(correctDigits(result.f, set.f), `F ${result.f}`).toBeGreaterThanOrEqual(set.digits);
      expect(
        correctDigits(result.betweenSquares!, set.betweenSquares),
        `between ${result.betweenSquares}`,
      ).toBeGreaterThanOrEqual(Math.min(set.digits, 12));
      expect(
        correctDigits(result.withinSquares!, set.withinSquares),
        `within ${result.withinSquares}`,
      ).toBeGreaterThanOrEqual(Math.min(set.digits, 12));
    });
  }
});
