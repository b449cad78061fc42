import { describe, expect, it } from "vitest";
import {
  approximateFactor,
  boundsByHand,
} from "../../../kernel-lib/src/exports/workbook/bounds-by-hand";
import { toleranceFactor } from "../../../kernel-lib/src/statistics";

const QUESTION = { fractile: 0.05, lowerConfidence: 0.9, upperConfidence: 0.9, scaled: false };

describe("bounds by hand", () => {
  it("gives the factor of the NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3", () => {
    // N = 43, 90 % of the population with 99 % confidence: a = 0.9356, b = 1.5165, k1 = 1.8752.
    const asked = { fractile: 0.1, confidence: 0.99, worth: 43, degrees: 42 };
    expect(approximateFactor(asked, 1)).toBeCloseTo(1.8752, 4);
  });

  it("is within 4 % of the exact factor from ten tests on, on both sides", () => {
    for (const n of [10, 20, 50, 200])
      for (const [side, confidence] of [
        [1, 0.9],
        [-1, 0.1],
      ] as const) {
        const exact = toleranceFactor({ n, fractile: 0.05, confidence });
        const asked = { fractile: 0.05, confidence: 0.9, worth: n, degrees: n - 1 };
        expect(Math.abs(approximateFactor(asked, side) / exact - 1)).toBeLessThan(0.04);
      }
  });

  it("gives the mean squares of a one-way analysis of variance", () => {
    // R 4: a <- factor(c(1,1,1,2,2,2,3,3,3)); y <- c(10,12,11,14,15,16,9,10,11)
    // anova(lm(y ~ a)): Mean Sq 21 (a), 1 (residuals). Balanced: n_0 = 3, so the intraclass
    // correlation is (21 - 1)/(21 + 2).
    const series = [
      [10, 12, 11],
      [14, 15, 16],
      [9, 10, 11],
    ].map((values, i) => ({ cell: "", series: String(i), values }));
    const found = boundsByHand(series, QUESTION);
    expect(found.between).toBeCloseTo(21, 10);
    expect(found.within).toBeCloseTo(1, 10);
    expect(found.typicalSize).toBeCloseTo(3, 12);
    expect(found.correlation).toBeCloseTo(20 / 23, 12);
    expect(found.cells.get("")!.worth).toBeCloseTo(9 / (1 + 2 * found.correlation), 12);
  });

  it("takes series of one test as independent tests", () => {
    const values = [9, 10, 11, 12, 13, 8, 10, 11];
    const found = boundsByHand(
      values.map((value, i) => ({ cell: "", series: String(i), values: [value] })),
      QUESTION,
    );
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 7);
    expect(found.sd).toBeCloseTo(sd, 12);
    expect(found.degrees).toBeCloseTo(7, 12);
    expect(found.cells.get("")!.worth).toBeCloseTo(8, 12);
  });

  it("scales each cell by its mean: all ratios of a cell times c give its bounds times c", () => {
    const series = [
      [1, 1.1, 1.2],
      [1.3, 1.2, 1.25],
      [0.9, 1, 1.05],
    ].flatMap((values, i) => [
      { cell: "one", series: `a${i}`, values },
      { cell: "two", series: `b${i}`, values: values.map((value) => 2 * value) },
    ]);
    const { cells } = boundsByHand(series, { ...QUESTION, scaled: true });
    expect(cells.get("two")!.lower).toBeCloseTo(2 * cells.get("one")!.lower, 12);
    expect(cells.get("two")!.upper).toBeCloseTo(2 * cells.get("one")!.upper, 12);
  });
});
