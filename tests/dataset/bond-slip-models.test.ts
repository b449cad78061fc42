import { describe, expect, it } from "vitest";
import {
  ascendingAnchorage,
  malvarStrength,
  malvarStress,
  modifiedBpeStress,
  residualSlip,
} from "../../kernel-lib/src/dataset";

describe("bond-slip laws", () => {
  it("a long bar on the ascending branch: 279.08 MPa over 138.21 mm (constructed, computed apart from this library)", () => {
    const { stress_MPa, length_mm } = ascendingAnchorage(45_000, 16, {
      tau1: 15,
      s1: 0.3,
      alpha: 0.3,
    });
    expect(stress_MPa).toBeCloseTo(279.08, 2);
    expect(length_mm).toBeCloseTo(138.21, 2);
    expect(() => ascendingAnchorage(45_000, 16, { tau1: 15, s1: 0.3, alpha: 1 })).toThrow(
      RangeError,
    );
  });

  it("its stress is what the bond along the length amounts to, integrated", () => {
    // s(x) = s1 (x/l)^(2/(1-alpha)) solves the bar's equilibrium; sum of tau over the length
    // against stress times area.
    const law = { tau1: 12, s1: 0.4, alpha: 0.25 };
    const { stress_MPa, length_mm } = ascendingAnchorage(60_000, 12, law);
    const n = 20_000;
    let force = 0;
    for (let k = 0; k < n; k++)
      force +=
        law.tau1 *
        (((k + 0.5) / n) ** (2 / (1 - law.alpha))) ** law.alpha *
        Math.PI *
        12 *
        (length_mm / n);
    expect(force / (Math.PI * 36) / stress_MPa).toBeCloseTo(1, 6);
  });

  it("the modified law reaches its residual stress at the slip said", () => {
    const law = { tau1: 14, s1: 0.5, alpha: 0.3, p: 0.15, tau3: 4 };
    const s3 = residualSlip(law);
    expect(modifiedBpeStress(s3, law)).toBeCloseTo(4, 12);
    expect(modifiedBpeStress(s3 * 0.99, law)).toBeGreaterThan(4);
  });

  it("Malvar's law has its strength at s_m, with a level top, and its strength grows with pressure to f_t (A + B)", () => {
    const law = { tauM: 11, sM: 0.8, F: 11, G: 1.2 };
    expect(malvarStress(0.8, law)).toBeCloseTo(11, 12);
    expect(Math.max(malvarStress(0.79, law), malvarStress(0.81, law))).toBeLessThan(11);
    expect(malvarStrength(3, 0, { A: 2, B: 3, C: 1 })).toBe(6);
    expect(malvarStrength(3, 1e3, { A: 2, B: 3, C: 1 })).toBeCloseTo(15, 9);
  });
});
