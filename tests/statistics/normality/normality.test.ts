import { describe, expect, it } from "vitest";
import { andersonDarling, shapiroWilk } from "../../../kernel-lib/src/statistics/normality";
import { createRandom } from "../../../kernel-lib/src/statistics/random";
import { expectRelative } from "../closeness";

const a = [42, 45, 51, 47, 44, 38.5];
const all = [...a, 40, 39, 37, 44.5, 50, 52, 48, 55.5];

describe("shapiroWilk", () => {
  it("agrees with R: shapiro.test", () => {
    for (const [values, w, p] of [
      [all, 0.968177750197063, 0.851372193636678],
      [a, 0.995533908078775, 0.998334046361504],
      [[1, 2, 4], 0.964285714285714, 0.636886845028963],
    ] as [number[], number, number][]) {
      const test = shapiroWilk(values);
      if (test.status !== "ok") throw new Error(test.reading);
      expectRelative(test.statistic, w, 1e-10);
      expectRelative(test.p, p, 1e-6); // R computes part of it in shorter constants
    }
  });
  it("finds a skew sample, accepts its logarithms, and never proves normality", () => {
    const random = createRandom("skew");
    const skew = Array.from({ length: 60 }, () => Math.exp(random.normal()));
    const normal = shapiroWilk(skew);
    const lognormal = shapiroWilk(skew, { distribution: "lognormal" });
    expect(normal.status === "ok" && normal.p).toBeLessThan(0.001);
    expect(lognormal.status === "ok" && lognormal.p).toBeGreaterThan(0.05);
    expect(lognormal.reading).toContain("does not prove");
    expect(shapiroWilk([1, 2])).toMatchObject({ reason: "too few values" });
    expect(shapiroWilk([2, 2, 2])).toMatchObject({ reason: "no spread" });
    expect(shapiroWilk([-1, 2, 3], { distribution: "lognormal" })).toMatchObject({
      reason: "values not positive",
    });
  });
});

describe("andersonDarling", () => {
  it("agrees with statsmodels: normal_ad", () => {
    const test = andersonDarling([...a, 40, 39, 37, 44, 50, 52, 48, 55.5]);
    if (test.status !== "ok") throw new Error(test.reading);
    expectRelative(test.statistic, 0.18582572966732158, 1e-11);
    expectRelative(test.p, 0.8872376461233397, 1e-9);
    expect(andersonDarling(a)).toMatchObject({ reason: "too few values" });
  });
});
