import { describe, expect, it } from "vitest";
import {
  factoredLoad,
  loadModel,
  lognormalResistanceFactor,
  sumOfLoads,
} from "../../kernel-lib/src/proposals/reliability";
import {
  smallSampleCorrection,
  testBasedResistanceFactor,
} from "../../kernel-lib/src/proposals/test-based-resistance-factor";

const eight = [1.1, 1.1, 1.1, 1.1, 1.1, 1.1, 1.1, 1.1];
const stated = {
  ratios: eight,
  professionalMean: 1.1,
  professionalCov: 0.12,
  materialCov: 0.05,
  fabricationCov: 0.05,
};

describe("testBasedResistanceFactor", () => {
  // Python: 1.52*1.1*exp(-b*sqrt(.05**2+.05**2+1.575*.12**2+.21**2)) for b = 2.5, 3.0, 3.5
  it.each([
    [2.5, 0.856],
    [3.0, 0.748],
    [3.5, 0.655],
  ])("eight tests, target %s: %s", (targetIndex, factor) => {
    expect(testBasedResistanceFactor({ ...stated, targetIndex }).factor).toBeCloseTo(factor, 3);
  });
  // Values of the published form C_P = (1 + 1/n) m/(m - 2); 5.7 for n = 3 is printed in the
  // specification (from memory).
  it.each([
    [3, 5.7],
    [4, 3.75],
    [5, 2.4],
    [6, 1.944],
    [8, 1.575],
    [10, 1.414],
    [20, 1.174],
    [30, 1.11],
  ])("C_P for %s tests is %s", (n, value) => {
    expect(smallSampleCorrection(n)).toBeCloseTo(value, 3);
  });
  it("the defaults C_φ 1.52 and V_Q 0.21 are those of 1.2D + 1.6L at L/D = 5 with the loads of 1980", () => {
    // (1.2/5 + 1.6)/(1.05/5 + 1) = 1.5207; sqrt((1.05/5*.1)^2 + .25^2)/(1.05/5 + 1) = 0.2073
    const loads = loadModel("ellingwood-1980");
    const load = sumOfLoads([
      { mean: loads.dead.meanOverNominal / 5, cov: loads.dead.cov },
      { mean: loads.variable.live.meanOverNominal, cov: loads.variable.live.cov },
    ]);
    expect(factoredLoad(1 / 5, 1) / load.mean).toBeCloseTo(1.5207, 4);
    expect(load.cov).toBeCloseTo(0.2073, 4);
    // The form is then the first-order log-normal factor with V_P² raised by C_P.
    const form = lognormalResistanceFactor(
      { bias: 1.1, cov: Math.sqrt(0.05 ** 2 + 0.05 ** 2 + 1.575 * 0.12 ** 2) },
      factoredLoad(1 / 5, 1),
      load,
      3.5,
      "first order",
    );
    const own = testBasedResistanceFactor({
      ...stated,
      targetIndex: 3.5,
      loadCov: load.cov,
      calibrationCoefficient: factoredLoad(1 / 5, 1) / load.mean,
    }).factor;
    expect(own).toBeCloseTo(form, 12);
  });
  it("takes mean and scatter from the ratios, and not less than 0.065", () => {
    const free = testBasedResistanceFactor({ ratios: [0.9, 1.0, 1.1, 1.2], targetIndex: 3.5 });
    expect(free.professionalMean).toBeCloseTo(1.05, 12);
    // R: sd(c(.9,1,1.1,1.2))/1.05
    expect(free.professionalCov).toBeCloseTo(0.122949, 5);
    const equal = testBasedResistanceFactor({ ratios: eight, targetIndex: 3.5 });
    expect(equal.professionalCov).toBe(0.065);
    expect(equal.warnings.join()).toContain("0.065, is used");
  });
  it("derives nothing from two tests and says so", () => {
    expect(testBasedResistanceFactor({ ratios: [1, 1.1], targetIndex: 2.5 })).toMatchObject({
      factor: null,
      reading:
        "No resistance factor: 2 tests are too few; the small-sample correction requires at least 3.",
    });
    expect(testBasedResistanceFactor({ ratios: [], targetIndex: 2.5 }).status).toBe("not derived");
  });
  it("rises with n and falls with the target", () => {
    const factor = (n: number, targetIndex: number): number =>
      testBasedResistanceFactor({ ...stated, ratios: eight.concat(eight).slice(0, n), targetIndex })
        .factor ?? NaN;
    for (let n = 3; n < 16; n++) {
      expect(factor(n + 1, 3.5)).toBeGreaterThan(factor(n, 3.5));
      expect(factor(n, 3)).toBeGreaterThan(factor(n, 3.5));
    }
  });
  it("refuses what cannot be", () => {
    expect(() => testBasedResistanceFactor({ ratios: [1, NaN, 1], targetIndex: 3 })).toThrow(
      "a ratio is NaN",
    );
    expect(() => testBasedResistanceFactor({ ratios: eight, targetIndex: 0 })).toThrow(
      "target index is 0",
    );
  });
});
