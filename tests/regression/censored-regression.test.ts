import { describe, expect, it } from "vitest";
import { censoredRegression, leastSquares } from "../../kernel-lib/src/regression";
import { relative, study, x, y } from "./ratio-rows";

const censored = y.map((_, i) => [0, 4, 9, 12].includes(i));
const near = (value: number, expected: number, tolerance: number = 1e-8): void => {
  expect(relative(value, expected)).toBeLessThan(tolerance);
};

describe("censoredRegression against R survreg", () => {
  it('Tobit: survreg(Surv(y, d) ~ x, dist = "gaussian")', () => {
    const f = censoredRegression({ y, censored, columns: { x } });
    near(f.coefficient("(intercept)").estimate, 1.4383086174759701);
    near(f.coefficient("x").estimate, -0.0191697137496661);
    near(f.coefficient("x").standardError, 0.00367864403216701, 1e-7);
    near(f.coefficient("x").p!, 1.877429786741e-7, 1e-6);
    near(Math.log(f.scale), -2.5278249810704083);
    near(f.logScaleStandardError, 0.19201582632525729, 1e-7);
    near(f.logLikelihood, 12.79144536649425);
    expect(f.reading).toContain("4 of them only lower bounds");
  });
  it('Weibull with clusters: survreg(dist = "weibull", cluster = st, robust = TRUE), times G / (G - 1)', () => {
    const f = censoredRegression({
      y,
      censored,
      columns: { x },
      distribution: "weibull",
      clusters: study,
    });
    near(f.coefficient("x").estimate, -0.0156859471745632);
    near(f.coefficient("x").standardError, 0.00330369942261192 * Math.sqrt(6 / 5), 1e-6);
    near(f.logScaleStandardError, 0.16462983073419746 * Math.sqrt(6 / 5), 1e-6);
    near(f.logLikelihood, 11.80651522428501);
  });
  it("without censoring it is least squares, with divisor n", () => {
    const f = censoredRegression({ y, censored: y.map(() => false), columns: { x } });
    const l = leastSquares({ y, columns: { x } });
    near(f.coefficient("x").estimate, l.coefficient("x").estimate);
    near(f.scale, l.residualSd * Math.sqrt(16 / 18));
    near(f.quantile({ x: [14] })[0]!, l.predict({ x: [14] }).fitted[0]!);
  });
  it("refuses by name", () => {
    expect(() => censoredRegression({ y, censored: y.map(() => true), columns: { x } })).toThrow(
      "only 0 of 18 rows are failures",
    );
    expect(() =>
      censoredRegression({ y, censored, columns: { x, twice: x.map((v) => 2 * v) } }),
    ).toThrow('"twice" is a combination of "x"');
    expect(() =>
      censoredRegression({
        y: y.map((v) => v - 1),
        censored,
        columns: { x },
        distribution: "lognormal",
      }),
    ).toThrow("needs values above 0");
    expect(() => censoredRegression({ y, censored: [true], columns: { x } })).toThrow(
      "expected 18",
    );
    expect(() =>
      censoredRegression({ y, censored, columns: { x }, clusters: y.map(() => 1) }),
    ).toThrow("at least 2 clusters");
  });
});
