import { describe, expect, it } from "vitest";
import { mixedModel } from "../../kernel-lib/src/regression";
import { relative, study, x, y } from "./ratio-rows";

const near = (value: number, expected: number, tolerance: number): void => {
  expect(relative(value, expected)).toBeLessThan(tolerance);
};

describe("mixedModel against R nlme", () => {
  const m = mixedModel({ y, columns: { x }, studies: study });
  it('lme(y ~ x, random = ~ 1 | st, method = "REML"): fixed effects with degrees of freedom', () => {
    const slope = m.coefficient("x");
    near(slope.estimate, -0.0177140705296359, 1e-6);
    near(slope.standardError, 0.00329273291888914, 1e-6);
    expect(slope.degreesOfFreedom).toBe(11);
    // nlme gives the intercept 11 as well; its error is that of six studies, with one column
    // between them.
    expect(m.coefficient("(intercept)").degreesOfFreedom).toBe(5);
    near(slope.p!, 2.23440646708975e-4, 1e-4);
  });
  it("VarCorr, logLik, ranef", () => {
    near(m.betweenStudySd.estimate, 0.0233982913520007, 1e-4);
    near(m.withinStudySd.estimate, 0.0701262039714548, 1e-5);
    near(m.logLikelihood, 14.5921293679394, 1e-9);
    near(m.studies[2]!.effect, -0.012907988386809744, 2e-4);
  });
  it("R lme4, a second program: lmer(y ~ x + (1 | st)), fixef, sqrt(diag(vcov)), VarCorr, sigma, logLik", () => {
    near(m.coefficient("(intercept)").estimate, 1.398408992, 1e-6);
    near(m.coefficient("x").estimate, -0.01771407048, 1e-6);
    near(m.coefficient("(intercept)").standardError, 0.05983534748, 1e-5);
    near(m.coefficient("x").standardError, 0.003292732914, 1e-5);
    near(m.betweenStudySd.estimate, 0.02339829034, 1e-3);
    near(m.withinStudySd.estimate, 0.07012620421, 1e-4);
    near(m.logLikelihood, 14.59212937, 1e-8);
  });
  it("names what shares the shift", () => {
    const r = mixedModel({ y, columns: { x }, studies: study, unit: ["series", "series"] });
    expect([r.method, ...r.assumptions, ...r.warnings, r.reading].join()).not.toContain("stud");
    expect(r.reading).toContain("in 6 series");
  });
  it("maximum likelihood: logLik", () => {
    near(
      mixedModel({ y, columns: { x }, studies: study, method: "ml" }).logLikelihood,
      22.5505883009573,
      1e-7,
    );
  });
  it("balanced one-way layout in closed form: variance components from mean squares", () => {
    const values = [10, 12, 11, 20, 21, 22, 15, 14, 16, 30, 29, 31];
    const lab = values.map((_, i) => Math.floor(i / 3));
    const means = [11, 21, 15, 30];
    const grand = 19.25;
    const msBetween = means.reduce((s, v) => s + 3 * (v - grand) ** 2, 0) / 3;
    const msWithin = values.reduce((s, v, i) => s + (v - means[lab[i]!]!) ** 2, 0) / 8;
    const r = mixedModel({ y: values, columns: {}, studies: lab });
    near(r.withinStudySd.estimate ** 2, msWithin, 1e-6);
    near(r.betweenStudySd.estimate ** 2, (msBetween - msWithin) / 3, 1e-5);
    near(r.coefficients[0]!.standardError, Math.sqrt(msBetween / 12), 1e-6);
    expect(r.studyTest.p).toBeLessThan(0.001);
    expect(r.betweenStudySd.lower).toBeGreaterThan(0);
    expect(r.reading).toContain("a study effect is shown");
    // Interval of a new test in a new study is wider than that of the mean.
    const bands = r.predict({});
    expect(bands.newStudyLower[0]!).toBeLessThan(bands.meanLower[0]!);
  });
  it("no scatter between studies is a limit, not a proof", () => {
    const r = mixedModel({
      y: [1, 3, 2, 2, 3, 1, 1, 3],
      columns: {},
      studies: ["a", "a", "b", "b", "c", "c", "d", "d"],
    });
    expect(r.betweenStudySd.estimate).toBe(0);
    expect(r.betweenStudySd.upper).toBeGreaterThan(0);
    expect(r.reading).toMatch(
      /no significant study effect was found .* does not show that there is none/,
    );
    expect(r.warnings.join()).toContain("does not show that studies agree");
  });
  it("two studies know a mean to one degree of freedom, however many tests they have", () => {
    const [m2] = mixedModel({
      y: [1, 1.1, 0.9, 1.05, 2, 2.1, 1.9, 2.05],
      columns: {},
      studies: ["a", "a", "a", "a", "b", "b", "b", "b"],
    }).coefficients;
    expect(m2!.degreesOfFreedom).toBe(1);
    // Half the range of two study means times t of 0.975 on 1, 12.706 (tables).
    expect(m2!.upper - m2!.estimate).toBeCloseTo(0.5 * 12.7062, 3);
  });
  it("refuses one study a class, and values without scatter within studies, instead of p near 0", () => {
    const [four, classes] = [
      [1, 1.2, 1.1, 1.5, 1.6, 1.4],
      [0, 0, 0, 1, 1, 1],
    ];
    expect(() =>
      mixedModel({ y: four, columns: { gfrp: classes }, studies: ["s", "s", "s", "g", "g", "g"] }),
    ).toThrow(
      /"\(intercept\)" and "gfrp" do not vary within a study, and 2 studies leave no degree of freedom .* at least 3 studies/,
    );
    expect(() =>
      mixedModel({
        y: [1.1, 1.1, 1.1, 1.3, 1.3, 1.3, 0.7, 0.7],
        columns: {},
        studies: ["a", "a", "a", "b", "b", "b", "c", "c"],
      }),
    ).toThrow(/fit every value exactly/);
  });
  it("refuses by name", () => {
    expect(() => mixedModel({ y, columns: { x }, studies: y.map(() => "one") })).toThrow(
      "at least 2 studies: got 1",
    );
    expect(() => mixedModel({ y, columns: { x }, studies: y.map((_, i) => i) })).toThrow(
      "a single row",
    );
    expect(() =>
      mixedModel({ y, columns: { x, twice: x.map((v) => 2 * v) }, studies: study }),
    ).toThrow('"twice" is a combination of "x"');
    expect(
      mixedModel({ y: [...y, 1], columns: { x: [...x, 1] }, studies: [...study.map(String), ""] })
        .excluded,
    ).toEqual([{ row: 18, reason: "no study named" }]);
  });
});
