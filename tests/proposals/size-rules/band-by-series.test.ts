import { describe, expect, it } from "vitest";
import { factorAlongVariable } from "../../../kernel-lib/src/proposals/size-rules";
import { createRandom } from "../../../kernel-lib/src/statistics";
import { expectSaid } from "../../says";
import { draw, MIXED, SAME, series, SIZES, y } from "./invented-series";

describe("factorAlongVariable, series effect included", () => {
  it("does not take a few series for a trend, where the series effect ignored does", () => {
    let [bySeries, byTests] = [0, 0];
    for (let sample = 0; sample < 12; sample++) {
      const {
        y: values,
        x,
        series: labels,
      } = draw(
        createRandom(`trend ${sample}`),
        SIZES.flatMap(
          (size) =>
            [
              [size, 3],
              [size, 3],
            ] as const,
        ),
        0.9,
      );
      const ratios = values.map((value) => 0.4 * Math.exp(0.1 * value));
      if ((factorAlongVariable({ ratios, x, series: labels }).p ?? 1) < 0.05) bySeries += 1;
      if ((factorAlongVariable({ ratios, x }).p ?? 1) < 0.05) byTests += 1;
    }
    // 5 % stated: 0.6 of 12 expected, standard error 0.8; series effect ignored 3 to 4.
    expect(bySeries).toBeLessThanOrEqual(2);
    expect(byTests).toBeGreaterThanOrEqual(3);
  });
  it("has the trend of the mixed model of R's lme", () => {
    const ratios = y.map((value) => 0.5 * Math.exp(value));
    // R: summary(lme(y ~ log(x), random = ~ 1 | series))$tTable["log(x)", ], x the sizes of
    // line-by-series.py
    expect(factorAlongVariable({ ratios, x: SAME.flat(), series }).exponent).toBeCloseTo(
      0.01642558772,
      5,
    );
    expect(factorAlongVariable({ ratios, x: SAME.flat(), series }).p).toBeCloseTo(0.8858163066, 4);
  });
  it("says why there is no factor: two series, tests without one, or columns of different length", () => {
    const ratios = y.map((value) => 0.5 * Math.exp(value));
    const of = (labels: readonly string[]): string =>
      factorAlongVariable({ ratios, x: MIXED.flat(), series: labels }).reading;
    expectSaid(of(y.map((_, i) => (i < 7 ? "a" : "b"))), /no factor/i, "fewer than 3 series");
    expectSaid(of(["", ...series.slice(1)]), /no factor/i, "1 of 15 tests", "series");
    expect(() => factorAlongVariable({ ratios, x: MIXED.flat(), series: ["a"] })).toThrow(
      "15 ratios and 1 names of series",
    );
  });
});
