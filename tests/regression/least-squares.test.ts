import { describe, expect, it } from "vitest";
import {
  leastSquares,
  RankDeficientError,
  regressionByGroup,
  toleranceFactorAtLeverage,
} from "../../kernel-lib/src/regression";
import { groups, relative, study, weights, x, y } from "./ratio-rows";

const near = (value: number, expected: number, tolerance: number = 1e-10): void => {
  expect(relative(value, expected)).toBeLessThan(tolerance);
};

describe("leastSquares against R 4.2", () => {
  const fit = leastSquares({ y, columns: { x } });
  it("summary(lm(y ~ x)): coefficients, R-squared, scatter, F", () => {
    near(fit.coefficient("x").estimate, -0.0171207563386334);
    near(fit.coefficient("x").standardError, 0.0032244711020187);
    near(fit.coefficient("x").t!, -5.30963243178545);
    near(fit.coefficient("x").p!, 7.04785708719387e-5, 1e-9);
    near(fit.rSquared!, 0.637945129565241);
    near(fit.adjustedRSquared!, 0.615316700163069);
    near(fit.residualSd, 0.0733247217925589);
    near(fit.overall!.f, 28.1921965606679);
    near(fit.leverage[0]!, 0.1564245810055864);
  });
  it("predict(f, data.frame(x = c(14, 30)), interval = ...)", () => {
    const bands = fit.predict({ x: [14, 30, NaN] });
    near(bands.fitted[0]!, 1.14850021486893);
    near(bands.confidenceLower[0]!, 1.105751306746415);
    near(bands.predictionUpper[1]!, 1.05659355566324);
    near(bands.predictionLower[0]!, 0.987287564656036);
    expect(bands.tolerance[2]).toBeNaN();
  });
  it("tolerance band: fit - sqrt(h) qt(.9, 16, qnorm(.95) / sqrt(h)) s in R", () => {
    near(fit.predict({ x: [14] }).tolerance[0]!, 0.979774681625363, 1e-8);
    // At the mean of n rows it is the K factor of a sample: n = 10, 5 %, 90 %: 2.568 (ISO 16269-6,
    // from memory).
    expect(toleranceFactorAtLeverage(1 / 10, 9, 1.6448536269514722, 0.9)).toBeCloseTo(2.568, 3);
  });
  it("lm(y ~ x, weights = w)", () => {
    const weighted = leastSquares({ y, columns: { x }, weights });
    near(weighted.coefficient("x").estimate, -0.0169563033651431);
    near(weighted.coefficient("x").standardError, 0.00336683046991277);
    near(weighted.rSquared!, 0.613191368011604);
    near(weighted.residualSd, 0.0833326510938085);
  });
  it('HC3: car::hccm(f, type = "hc3")', () => {
    const robust = leastSquares({ y, columns: { x }, standardErrors: "hc3" });
    near(robust.covariance[0]![0]!, 0.00360123434049094);
    near(robust.covariance[0]![1]!, -2.1655678110465e-4);
    near(robust.covariance[1]![1]!, 1.41633319020479e-5);
  });
  it("clusters: 6/5 * 17/16 * B %*% crossprod(rowsum(X * e, st)) %*% B in R", () => {
    const robust = leastSquares({ y, columns: { x }, standardErrors: { clusters: study } });
    near(robust.covariance[0]![0]!, 0.003412297111242356);
    near(robust.covariance[1]![1]!, 0.000017869921774114, 1e-9);
    expect(robust.coefficient("x").degreesOfFreedom).toBe(5);
    expect(robust.warnings.join()).toContain("Only 6 clusters");
  });
});

describe("laws of least squares", () => {
  const fit = leastSquares({ y, columns: { x } });
  it("shift, scale and order", () => {
    const turned = leastSquares({
      y: y.map((v) => 5 + 3 * v).reverse(),
      columns: { x: x.map((v) => v / 25.4).reverse() },
    });
    near(turned.coefficient("x").estimate, 3 * 25.4 * fit.coefficient("x").estimate);
    near(turned.coefficient("x").p!, fit.coefficient("x").p!, 1e-9);
  });
  it("whole weights give the coefficients of repeated rows", () => {
    const repeat = (column: readonly number[]): number[] =>
      column.flatMap((v, i) => Array<number>(weights[i]!).fill(v));
    const repeated = leastSquares({ y: repeat(y), columns: { x: repeat(x) } });
    const weighted = leastSquares({ y, columns: { x }, weights });
    near(weighted.coefficient("x").estimate, repeated.coefficient("x").estimate);
    near(weighted.residualSumOfSquares, repeated.residualSumOfSquares);
  });
  it("residuals are orthogonal to the columns, leverages sum to their number", () => {
    expect(Math.abs(fit.residuals.reduce((s, e, i) => s + e * x[i]!, 0))).toBeLessThan(1e-12);
    expect(fit.leverage.reduce((s, h) => s + h, 0)).toBeCloseTo(2, 12);
  });
});

describe("bad input to leastSquares", () => {
  it("names collinear columns, with the columns that make them up", () => {
    const twice = x.map((v) => 2 * v);
    const run = (): unknown =>
      leastSquares({ y, columns: { x, unrelated: study, twice, zero: x.map(() => 0) } });
    expect(run).toThrow('"twice" is a combination of "x"; "zero" is zero in every row');
    try {
      run();
    } catch (error) {
      expect((error as RankDeficientError).dependences).toEqual([
        { column: "twice", of: ["x"] },
        { column: "zero", of: [] },
      ]);
    }
    expect(() => leastSquares({ y, columns: { x: x.map(() => 7) } })).toThrow(
      '"x" is a combination of "(intercept)"',
    );
  });
  it("too few rows, unequal lengths, negative weights, unknown names", () => {
    expect(() => leastSquares({ y: [], columns: { x: [] } })).toThrow("0 usable rows");
    expect(() => leastSquares({ y: [1, 2], columns: { x: [1, 2] } })).toThrow(
      "expected at least 3",
    );
    expect(() => leastSquares({ y: [1, 2], columns: { x: [1] } })).toThrow(
      'Column "x" has 1 rows, expected 2',
    );
    expect(() => leastSquares({ y, columns: { x }, weights: x.map((_, i) => i - 1) })).toThrow(
      "Weight of row 0 is -1",
    );
    expect(() => leastSquares({ y, columns: { x } }).predict({ z: [1] })).toThrow('no column "x"');
    expect(() => leastSquares({ y, columns: { x } }).coefficient("z")).toThrow(
      '"(intercept)", "x"',
    );
    expect(() =>
      leastSquares({ y, columns: { x }, standardErrors: { clusters: y.map(() => "one") } }),
    ).toThrow("at least 2 clusters");
  });
  it("excludes missing values and weights of 0, and says so", () => {
    const fit = leastSquares({
      y: [...y, NaN, 1, 1],
      columns: { x: [...x, 1, NaN, 5] },
      weights: [...x.map(() => 1), 1, 1, 0],
    });
    expect(fit.excluded.map((s) => s.reason)).toEqual([
      "no finite value of y",
      'no finite value of "x"',
      "weight 0",
    ]);
    near(fit.coefficient("x").estimate, -0.0171207563386334);
    expect(fit.reading).toContain("3 rows excluded");
  });
  it("y that does not vary, or that a line meets exactly, has no p-value", () => {
    const flat = leastSquares({ y: x.map(() => 4), columns: { x } });
    expect(flat.rSquared).toBeNull();
    const exact = leastSquares({ y: x.map((v) => 1 + 2 * v), columns: { x } });
    expect(exact.coefficient("x").p).toBeNull();
    for (const f of [flat, exact]) expect(f.reading).not.toMatch(/NaN|Infinity/);
  });
  it("the reading never claims a slope of zero", () => {
    const noise = leastSquares({ y: [1, 2, 1, 2, 1, 2], columns: { x: [1, 1, 2, 2, 3, 3] } });
    expect(noise.reading).toMatch(/No significant change of y with x was found/);
  });
});

describe("regressionByGroup", () => {
  it("is a fit of each class alone, with refusals named and row numbers of the whole data", () => {
    const r = regressionByGroup({
      y: [...y, 2, 1],
      columns: { x: [...x, 3, 4] },
      groups: [...groups, "carbon", ""],
    });
    expect(r.groups.map((g) => [g.group, g.status])).toEqual([
      ["glass", "ok"],
      ["steel", "ok"],
      ["carbon", "cannot be estimated"],
    ]);
    const steel = r.groups[1]!;
    // coef(lm(y ~ g * x)): slope of glass plus its difference to steel
    if (steel.status === "ok") {
      near(steel.fit.coefficient("x").estimate, -0.0245816242821985 + 0.0154623830897866, 1e-9);
      expect(steel.fit.rows[0]).toBe(9);
    }
    expect(r.excluded).toEqual([{ row: 19, reason: "no class named" }]);
    expect(r.reading).toContain("2 classes fitted of 3");
  });
});
