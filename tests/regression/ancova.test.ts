import { describe, expect, it } from "vitest";
import { ancova } from "../../kernel-lib/src/regression";
import { groups, relative, study, x, y } from "./ratio-rows";

const near = (value: number, expected: number, tolerance: number = 1e-9): void => {
  expect(relative(value, expected)).toBeLessThan(tolerance);
};

describe("ancova against R lm(y ~ g * x)", () => {
  const a = ancova({ y, x, groups, variable: "bar diameter", response: "the ratio" });
  it("slopes, difference of slopes with p and confint()", () => {
    near(a.lines[0]!.slope.estimate, -0.0245816242821985);
    near(a.lines[0]!.slope.standardError, 0.00335550266480484);
    const d = a.slopeDifferences[0]!;
    near(d.estimate, -0.0154623830897866);
    near(d.standardError, 0.00486394474671965);
    near(d.p!, 6.69460790716841e-3);
    near(d.lower, -0.0258945070333187);
    near(d.upper, -0.00503025914625456);
    near(a.equalSlopes.f, 3.17898000387746 ** 2);
    expect(a.reading).toContain(
      "changes with bar diameter: the slope of glass is 0.0155 per unit lower",
    );
  });
  it("the gap at x = 0 is the class coefficient", () => {
    near(a.gapAt("steel", "glass", 0).estimate, -0.213663168160257);
    near(a.gapAt("steel", "glass", 0).p!, 2.88646140773929e-2);
  });
  it("log ratio: lm(log(y) ~ g * x)", () => {
    const l = ancova({ y, x, groups, scale: "log" });
    near(l.slopeDifferences[0]!.estimate, -0.0146938612126156);
    near(l.slopeDifferences[0]!.p!, 4.41193855817327e-3);
    const gap = l.gapAt("glass", "steel", 20);
    near(gap.ratio!.estimate, Math.exp(0.1972224097934336 - 20 * 0.0146938612126156));
  });
  it("three similar classes: no finding, with what they may still hold; pairs antisymmetric", () => {
    const three = y.map((_, i) => ["a", "b", "c"][i % 3]!);
    const r = ancova({ y, x, groups: three });
    expect(r.slopeDifferences.length).toBe(3);
    near(
      r.slopeDifferences[1]!.estimate,
      r.slopeDifferences[0]!.estimate + r.slopeDifferences[2]!.estimate,
      1e-8,
    );
    expect(r.reading).toMatch(/No significant difference of slopes/);
  });
  it("clusters by study, and bad input by name", () => {
    expect(
      ancova({ y, x, groups, standardErrors: { clusters: study } }).slopeDifferences[0]!
        .degreesOfFreedom,
    ).toBe(5);
    expect(() => ancova({ y, x, groups: y.map(() => "glass") })).toThrow(
      "got 1 class, expected at least 2",
    );
    expect(() => ancova({ y: y.map((v) => v - 1), x, groups, scale: "log" })).toThrow(
      "needs values above 0",
    );
    expect(() => ancova({ y, x: x.map((v, i) => (i < 9 ? 12 : v)), groups })).toThrow(
      '"x in class glass" is a combination of "class glass"',
    );
    expect(() => a.gapAt("glass", "carbon", 1)).toThrow('no class "carbon"');
  });
});
