import { describe, expect, it } from "vitest";
import { leastSquares, powerModel, robustRegression } from "../../kernel-lib/src/regression";
import { relative, x, y } from "./ratio-rows";

const near = (value: number, expected: number, tolerance: number): void => {
  expect(relative(value, expected)).toBeLessThan(tolerance);
};
const withOutlier = y.map((v, i) => (i === 3 ? 2 : v));

describe("robustRegression against R MASS::rlm(maxit = 500, acc = 1e-14)", () => {
  it("Huber: summary(rlm(yy ~ x))$coef and $s", () => {
    const r = robustRegression({ y: withOutlier, columns: { x } });
    near(r.coefficient("x").estimate, -0.0176030180996571, 1e-8);
    near(r.coefficient("x").standardError, 0.00409628346019553, 1e-6);
    near(r.scale, 0.0771277031096055, 1e-7);
    expect(r.rowWeights[3]).toBeLessThan(0.5);
    expect(r.reading).toContain("1 weighted below one half");
  });
  it("bisquare: rlm(psi = psi.bisquare, init = Huber coefficients)", () => {
    const r = robustRegression({ y: withOutlier, columns: { x }, psi: "bisquare" });
    near(r.coefficient("x").estimate, -0.0173484852260572, 1e-7);
    near(r.coefficient("x").standardError, 0.00354772177432137, 1e-5);
    near(r.scale, 0.0742974635958877, 1e-6);
    expect(r.rowWeights[3]).toBe(0);
  });
  it("moves less than least squares when one row is far off", () => {
    const shift = (fit: (v: number[]) => number): number => Math.abs(fit(withOutlier) - fit(y));
    expect(
      shift((v) => robustRegression({ y: v, columns: { x } }).coefficients[0]!.estimate),
    ).toBeLessThan(shift((v) => leastSquares({ y: v, columns: { x } }).coefficients[0]!.estimate));
  });
  it("refuses by name", () => {
    expect(() =>
      robustRegression({ y: x.map((v, i) => (i === 2 ? 9 : v)), columns: { x } }),
    ).toThrow("More than half of the rows lie on one line");
    expect(() => robustRegression({ y: [1, 2, 3], columns: { x: [1, 2, 3] } })).toThrow(
      "at least 4 usable rows",
    );
  });
});

describe("powerModel against R lm(log(y) ~ log(x))", () => {
  const p = powerModel({ y, columns: { x }, response: "the ratio" });
  it("exponent, factor, smearing mean(exp(resid))", () => {
    near(p.exponents[0]!.estimate, -0.264774762970894, 1e-10);
    near(p.exponents[0]!.p!, 5.24257776030284e-5, 1e-8);
    near(p.factor.estimate, Math.exp(0.823674944508425), 1e-10);
    near(p.meanOverMedian, Math.exp(0.0668068741386058 ** 2 / 2), 1e-10);
    near(p.smearing, 1.0019895549439, 1e-10);
    expect(p.reading).toContain("the curve is the median");
  });
  it("a change of units moves the factor, never the exponent; tolerance below prediction below median", () => {
    near(
      powerModel({ y, columns: { x: x.map((v) => v / 25.4) } }).exponents[0]!.estimate,
      p.exponents[0]!.estimate,
      1e-10,
    );
    const b = p.predict({ x: [14] });
    expect(b.tolerance[0]!).toBeLessThan(b.median[0]!);
    expect(b.mean[0]!).toBeGreaterThan(b.median[0]!);
  });
  it("refuses zero", () => {
    expect(() => powerModel({ y, columns: { x: x.map((v, i) => (i === 4 ? 0 : v)) } })).toThrow(
      '"x" of row 4 is 0',
    );
  });
});
