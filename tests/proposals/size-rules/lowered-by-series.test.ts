import { describe, expect, it } from "vitest";
import { loweredBySeries } from "../../../kernel-lib/src/proposals/size-rules/lowered-by-series";
import { leastSquares } from "../../../kernel-lib/src/regression";
import { lineBySeries } from "../../../kernel-lib/src/statistics";
import { expectSaid } from "../../says";
import { logs, question, SAME, series, y } from "./invented-series";

describe("loweredBySeries, where some tests are lower bounds", () => {
  const along = {
    ratios: y.map(Math.exp),
    x: SAME.flat(),
    exponent: 0,
    grid: [10, 16, 25],
    fractile: 0.05,
    confidence: 0.9,
  };
  const lowerBounds = y.map((_, i) => i % 5 === 4);
  const of = (input: Parameters<typeof loweredBySeries>[0]): number[] => {
    const found = loweredBySeries(input);
    if (typeof found === "string") throw new Error(found);
    return found;
  };
  it("lowers a band of one test a series by no more than the noise of the bootstrap", () => {
    const sd = 0.1;
    for (const value of of({ ...along, lowerBounds, series: y.map((_, i) => String(i)) }))
      expect(value).toBeLessThan(0.3 * sd);
    for (const value of of({
      ...along,
      lowerBounds: y.map(() => false),
      series: y.map((_, i) => String(i)),
    }))
      expect(value).toBeCloseTo(0, 9);
  });
  it("lowers more at the ends than between, and nearly as lineBySeries does where nothing is a lower bound", () => {
    const [low = NaN, middle = NaN, high = NaN] = of({ ...along, lowerBounds, series });
    expect(middle).toBeGreaterThan(0);
    expect(Math.min(low, high)).toBeGreaterThan(middle);
    const fit = leastSquares({ y, columns: { x: logs(along.x) } });
    const plain = fit.predict(
      { x: question.grid },
      { fractile: 0.05, toleranceConfidence: 0.9 },
    ).tolerance;
    const lowered = of({
      ...along,
      exponent: fit.coefficient("x").estimate,
      lowerBounds: y.map(() => false),
      series,
    });
    lineBySeries({ y, x: logs(along.x), series, ...question }).forEach((value, k) =>
      expect(Math.abs((plain[k] ?? NaN) - (lowered[k] ?? NaN) - value)).toBeLessThan(
        0.4 * fit.residualSd,
      ),
    );
  });
  it("says why it gives no bound", () => {
    const reason = loweredBySeries({
      ...along,
      lowerBounds,
      series: y.map((_, i) => (i < 7 ? "a" : "b")),
    });
    expectSaid(String(reason), "too few series");
  });
});
