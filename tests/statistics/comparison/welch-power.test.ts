import { describe, expect, it } from "vitest";
import { createRandom } from "../../../kernel-lib/src/statistics/random";
import {
  minimumDetectableDifference,
  powerOfTTest,
  sampleSizeForDifference,
  sampleSizesForDifference,
  welchTest,
} from "../../../kernel-lib/src/statistics/comparison";

type Case = readonly [
  nA: number,
  nB: number,
  difference: number,
  sdA: number,
  sdB: number,
  exact: number,
  simulated: number,
];

/*
 * exact: R integrate(g, 1e-9, pi/2 - 1e-9, rel.tol = 1e-12) of the power given W = sin(th)^2 over
 * its Beta law, with pt(k, vA + vB, delta, lower = FALSE) + pt(-k, vA + vB, delta). simulated: R,
 * 200,000 pairs of samples each, set.seed(1): x <- matrix(rnorm(R * nA, 0, sdA), R) and so on,
 * mean(|t| > qt(.975, nu)) with Welch's nu; its standard error is at most 0.0012.
 */
const cases: readonly Case[] = [
  [5, 5, 2, 1, 1, 0.7667823155, 0.7658],
  [3, 3, 3, 1, 1, 0.676910350733, 0.6782],
  [3, 3, 4, 1, 2, 0.521614667072, 0.5218],
  [4, 10, 2.5, 2, 1, 0.439660215929, 0.4396],
  [10, 4, 2.5, 2, 1, 0.788759923449, 0.7895],
  [6, 20, 1.5, 1, 2, 0.642111700802, 0.6424],
  [5, 15, 1.5, 1, 1, 0.695595404423, 0.6956],
  [3, 12, 3, 2, 1, 0.377887765832, 0.3773],
  [30, 30, 0.7, 1, 1.5, 0.54991419302, 0.5498],
];

describe("power of Welch's test", () => {
  it.each(cases)(
    "n %i and %i, difference %d, SDs %d and %d",
    (nA, nB, difference, sdA, sdB, exact, simulated) => {
      const found = powerOfTTest({ nA, nB, difference, sdA, sdB });
      expect(Math.abs(found - exact)).toBeLessThan(2e-8);
      expect(Math.abs(found - simulated)).toBeLessThan(4 * 0.0012);
    },
  );

  it("is what the test of this library finds on seeded samples", () => {
    for (const [nA, nB, difference, sdA, sdB] of [
      [4, 10, 2.5, 2, 1],
      [3, 3, 3, 1, 1],
    ] as const) {
      const random = createRandom(`Welch power ${nA}`);
      const sample = (n: number, mean: number, sd: number): number[] =>
        Array.from({ length: n }, () => mean + sd * random.normal());
      let found = 0;
      for (let i = 0; i < 4000; i += 1) {
        const test = welchTest(sample(nA, 0, sdA), sample(nB, difference, sdB));
        if (test.status === "ok" && test.p < 0.05) found += 1;
      }
      // Standard error of a share of 4000: 0.0079; four of them.
      expect(Math.abs(found / 4000 - powerOfTTest({ nA, nB, difference, sdA, sdB }))).toBeLessThan(
        0.032,
      );
    }
  });

  it("at no difference is the true level of the test, which Welch holds only nearly", () => {
    expect(powerOfTTest({ nA: 4, nB: 9, difference: 0, sdA: 2, sdB: 1 })).toBeCloseTo(
      0.059732636226,
      7,
    ); // R, as above
    expect(powerOfTTest({ nA: 2, nB: 2, difference: 5, sdA: 1, sdB: 1 })).toBeCloseTo(
      0.410081961814,
      7,
    );
    expect(powerOfTTest({ nA: 400, nB: 300, difference: 0, sdA: 2, sdB: 1 })).toBeCloseTo(0.05, 4);
  });

  it('without scatter in one sample it is the test of one sample: R power.t.test(6, 1, 1, type = "one.sample", strict = TRUE) = 0.50684198', () => {
    expect(powerOfTTest({ nA: 3, nB: 6, difference: 1, sdA: 0, sdB: 1 })).toBeCloseTo(
      0.50684198,
      7,
    );
  });

  it("scales with the unit, turns with the samples, rises with the difference", () => {
    const base = powerOfTTest({ nA: 4, nB: 7, difference: 1.3, sdA: 0.5, sdB: 1 });
    expect(powerOfTTest({ nA: 4, nB: 7, difference: 1300, sdA: 500, sdB: 1000 })).toBeCloseTo(
      base,
      12,
    );
    expect(powerOfTTest({ nA: 7, nB: 4, difference: -1.3, sdA: 1, sdB: 0.5 })).toBeCloseTo(base, 9);
    const powers = [0, 0.5, 1, 2, 4, 8].map((difference) =>
      powerOfTTest({ nA: 4, nB: 7, difference, sdA: 0.5, sdB: 1 }),
    );
    expect([...powers].sort((a, b) => a - b)).toEqual(powers);
  });

  it("gives sizes and least differences that reach the power, and no less would", () => {
    const { nA, nB } = sampleSizesForDifference({ difference: 10, sdA: 4, sdB: 8, allocation: 2 });
    expect(nB).toBe(2 * nA);
    expect(powerOfTTest({ nA, nB, difference: 10, sdA: 4, sdB: 8 })).toBeGreaterThanOrEqual(0.8);
    expect(powerOfTTest({ nA: nA - 1, nB: nB - 2, difference: 10, sdA: 4, sdB: 8 })).toBeLessThan(
      0.8,
    );
    expect([nA, nB]).toEqual([5, 10]);
    const least = minimumDetectableDifference({ nA: 4, nB: 9, sdA: 3, sdB: 1 });
    expect(powerOfTTest({ nA: 4, nB: 9, sdA: 3, sdB: 1, difference: least })).toBeCloseTo(0.8, 9);
    // Large samples: z as for known SDs, (z_.975 + z_.8)^2 (sA^2 + sB^2) / d^2 = 7.8489 * 5 / 0.01
    // = 3924.4 (R qnorm).
    expect(
      Math.abs(sampleSizeForDifference({ difference: 0.1, sdA: 1, sdB: 2 }) - 3924.4),
    ).toBeLessThan(3);
  });

  it("says what is wrong with a question", () => {
    expect(() => powerOfTTest({ nA: 1, nB: 5, difference: 1, sdA: 1, sdB: 1 })).toThrow(
      "at least 2 each",
    );
    expect(() => powerOfTTest({ nA: 3, nB: 5, difference: 1, sdA: 0, sdB: 0 })).toThrow(
      "one of two may be 0",
    );
    expect(() => powerOfTTest({ nA: 3, nB: 5, difference: 1, sdA: NaN, sdB: 1 })).toThrow(
      "SD of NaN and 1",
    );
    expect(() =>
      sampleSizesForDifference({ difference: 1, sdA: 1, sdB: 1, allocation: 0 }),
    ).toThrow("allocation is 0");
    expect(() =>
      minimumDetectableDifference({ nA: 3, nB: 5, sdA: 1, sdB: 1, power: 0.01 }),
    ).toThrow("power is 0.01");
  });
});
