import { describe, expect, it } from "vitest";
import {
  informationCriteria,
  leastSquares,
  leaveGroupOutError,
  nestedTest,
  normalQuantilePlot,
  rowDiagnostics,
  varianceInflation,
} from "../../kernel-lib/src/regression";
import { relative, study, x, y } from "./ratio-rows";

const near = (value: number, expected: number, tolerance: number = 1e-9): void => {
  expect(relative(value, expected)).toBeLessThan(tolerance);
};
const z = y.map((v, i) => Math.log(v) + 0.1 * x[i]! + [0.3, -0.2][i % 2]!);
const one = leastSquares({ y, columns: { x } });
const two = leastSquares({ y, columns: { x, z } });

describe("diagnostics against R", () => {
  it("cooks.distance, rstudent, rstandard, dffits of lm(y ~ x)", () => {
    const d = rowDiagnostics(one);
    near(d.cookDistance[0]!, 0.2169412288300064);
    near(d.studentised[0]!, 1.602926671162077);
    near(d.standardised[3]!, -0.903147177520899);
    near(d.dffits[1]!, -0.231153571998269);
    expect(d.flagged).toEqual([]);
    expect(
      rowDiagnostics(leastSquares({ y: y.map((v, i) => (i === 3 ? 3 : v)), columns: { x } }))
        .reading,
    ).toMatch(/row 3 .*none was removed/);
  });
  it("car::vif", () => {
    for (const v of varianceInflation(two)) near(v.factor, 3.83219203093673);
  });
  it("normal scores are antisymmetric and rise", () => {
    const q = normalQuantilePlot([3, 1, NaN, 2]);
    expect(Array.from(q.values)).toEqual([1, 2, 3]);
    expect(q.scores[0]! + q.scores[2]!).toBeCloseTo(0, 14);
    // qnorm((3 - 3/8) / (3 + 1/4)) in R: 0.8694238
    expect(q.scores[2]).toBeCloseTo(0.8694238, 6);
  });
});

describe("model comparison against R", () => {
  it("AIC, BIC, anova(f, f2)", () => {
    near(informationCriteria(two).aic, -41.609341476736);
    near(informationCriteria(two).bic, -38.0478544451513);
    near(informationCriteria(one).aic, -39.1011759450598);
    near(informationCriteria(one).aicc!, -39.1011759450598 + 24 / 14);
    const t = nestedTest(one, two);
    expect(t.f).toBeCloseTo(4.26912, 5);
    expect(t.p).toBeCloseTo(0.056531, 6);
    expect(t.reading).toContain('No significant effect of "z"');
    expect(() => nestedTest(two, one)).toThrow("expected nested models");
  });
  it("leaving single rows out is the PRESS residual e / (1 - h)", () => {
    const out = leaveGroupOutError(
      { y, columns: { x } },
      y.map((_, i) => i),
    );
    near(
      out.rmse,
      Math.sqrt(
        one.residuals.reduce((s, e, i) => s + (e / (1 - one.leverage[i]!)) ** 2, 0) / y.length,
      ),
    );
  });
  it("names the study that the others cannot predict", () => {
    const out = leaveGroupOutError(
      { y, columns: { own: y.map((_, i) => (study[i] === 1 ? x[i]! : 0)) } },
      study,
    );
    expect(out.groups.find((g) => g.group === 1)!.reason).toContain('"own" is zero in every row');
    expect(() =>
      leaveGroupOutError(
        { y, columns: { x } },
        y.map(() => 1),
      ),
    ).toThrow("at least 2 groups");
  });
});
