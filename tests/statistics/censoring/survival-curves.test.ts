import { describe, expect, it } from "vitest";
import {
  kaplanMeier,
  logRank,
  type LogRank,
  type LogRankInput,
} from "../../../kernel-lib/src/statistics/censoring";
import { censored, values } from "./right-censored-loads";

describe('kaplanMeier against R survfit(Surv(x, d) ~ 1, conf.type = "log-log")', () => {
  const km = kaplanMeier({ values, censored });
  it("survival, Greenwood standard error, log(-log) interval at each load", () => {
    const expected = [
      [87.2, 0.916666666666667, 0.0797855923130282, 0.5389771805707413, 0.987825565400458],
      [93.8, 0.666666666666667, 0.1360827634879543, 0.337018932541402, 0.85971179908444],
      [101.4, 0.5, 0.1443375672974064, 0.2084771433067372, 0.736073097373045],
      [104.5, 0.375, 0.1530931089239486, 0.1088679457375295, 0.648035239504073],
      [120.3, 0.1875, 0.1530931089239486, 0.0128498919318694, 0.525434691854658],
    ];
    for (const [value, s, se, lower, upper] of expected) {
      const step = km.steps.find((k) => k.value === value)!;
      expect(step.survival).toBeCloseTo(s!, 12);
      expect(step.standardError).toBeCloseTo(se!, 12);
      expect(step.lower).toBeCloseTo(lower!, 11);
      expect(step.upper).toBeCloseTo(upper!, 11);
    }
  });
  it("median and its interval: summary(f)$table", () => {
    expect(km.median).toBeCloseTo(101.55, 10);
    expect(km.medianInterval).toEqual([88.3, null]);
    expect(km.reading).toContain("open above");
  });
  it("without censoring is one minus the empirical distribution", () => {
    kaplanMeier({ values, censored: values.map(() => false) }).steps.forEach((step, i) => {
      expect(step.survival).toBeCloseTo(1 - (i + 1) / 12, 12);
    });
  });
  it("says that an all-censored sample shows nothing, and never prints NaN", () => {
    const none = kaplanMeier({ values: [4, 5], censored: [true, true] });
    expect(none.reading).toMatch(/does not decrease.*cannot be estimated/);
    expect(none.median).toBeNull();
    expect(kaplanMeier({ values: [3], censored: [false] }).reading).not.toContain("NaN");
    expect(() => kaplanMeier({ values: [NaN], censored: [false] })).toThrow("no usable value");
  });
});

function tested(input: LogRankInput): LogRank {
  const result = logRank(input);
  if (result.status !== "ok") throw new Error(result.reading);
  return result;
}

describe("logRank against R survdiff", () => {
  const halves = values.map((_, i) => (i < 6 ? "A" : "B"));
  const thirds = values.map((_, i) => String((i % 3) + 1));
  it("two groups: survdiff(Surv(x, d) ~ g); without ties the same as coxph(Surv(x, d) ~ g)'s score test, 0.0570305484065, p = 0.811252376155", () => {
    const r = tested({ values, censored, groups: halves });
    expect(r.chiSquared).toBeCloseTo(0.0570305484065249, 12);
    expect(r.p).toBeCloseTo(0.811252376, 8);
    expect(r.groups[0]).toMatchObject({ failures: 4, n: 6 });
    expect(r.groups[0]!.expected).toBeCloseTo(3.66847041847042, 12);
    expect(r.reading).toContain("does not show that they are equal");
  });
  it("three groups and strata: survdiff(~ g3), survdiff(~ g + strata(g3))", () => {
    const r = tested({ values, censored, groups: thirds });
    expect(r.chiSquared).toBeCloseTo(2.54422011553908, 11);
    expect(r.degreesOfFreedom).toBe(2);
    expect(tested({ values, censored, groups: halves, strata: thirds }).chiSquared).toBeCloseTo(
      0.147540983606557,
      11,
    );
  });
  it("says which group fails first when they differ, and refuses what cannot be tested", () => {
    const low = [1, 2, 3, 4, 5, 6, 11, 12, 13, 14, 15, 16];
    const r = tested({ values: low, censored: low.map(() => false), groups: halves });
    expect(r.p).toBeLessThan(0.01);
    expect(r.reading).toContain("A fails at lower loads");
    expect(logRank({ values, censored, groups: values.map(() => "A") })).toMatchObject({
      status: "cannot be estimated",
      reason: "too few groups",
    });
    expect(logRank({ values, censored: values.map(() => true), groups: halves })).toMatchObject({
      status: "cannot be estimated",
      reason: "nothing failed",
    });
    // The lower group has only bounds and is gone before the first failure.
    expect(
      logRank({
        values: [1, 2, 3, 4],
        censored: [true, true, false, false],
        groups: ["A", "A", "B", "B"],
      }),
    ).toMatchObject({ status: "cannot be estimated", reason: "too few failures" });
  });
});
