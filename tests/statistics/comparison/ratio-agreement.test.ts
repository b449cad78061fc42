import { describe, expect, it } from "vitest";
import {
  equivalenceTest,
  ratioOfMeans,
  welchTest,
} from "../../../kernel-lib/src/statistics/comparison";
import {
  contrastInterval,
  ratioSide,
} from "../../../kernel-lib/src/statistics/comparison/ratio-contrast";
import { createRandom } from "../../../kernel-lib/src/statistics/random";

/**
 * Two positive samples of 2 to 9 values, scatters from 1 to 60 % of means that differ by up to
 * eight times.
 */
function samples(seed: number): {
  a: number[];
  b: number[];
  random: ReturnType<typeof createRandom>;
} {
  const random = createRandom(`ratio agreement ${seed}`);
  const draw = (mean: number): number[] => {
    const scatter = random.choice([0.01, 0.05, 0.15, 0.3, 0.6]);
    return Array.from(
      { length: 2 + random.integer(8) },
      () => mean * (1 + scatter * random.normal()),
    );
  };
  return { a: draw(10), b: draw(10 * random.choice([0.2, 0.8, 0.95, 1, 1.05, 1.3, 3, 8])), random };
}

describe("interval of a ratio, Welch's test and equivalence", () => {
  it("never disagree, over random samples, margins and levels: equivalent just where the interval of 1 - 2 alpha lies within the margin", () => {
    let [shown, open, unbounded] = [0, 0, 0];
    for (let seed = 0; seed < 400; seed += 1) {
      const { a, b, random } = samples(seed);
      const level = random.choice([0.005, 0.025, 0.05, 0.1, 0.2]);
      const test = welchTest(a, b, { confidence: 1 - 2 * level });
      if (test.status !== "ok" || test.ratioInterval === null) continue;
      const { bounded, lower, upper } = test.ratioInterval;
      const significant = test.p < 2 * level;
      expect(!bounded || (lower! <= 1 && upper! >= 1), `Welch ${seed}`).toBe(
        !significant || !bounded,
      );
      if (!bounded) unbounded += 1;
      const ends = bounded
        ? [
            0.9 * lower!,
            0.999 * lower!,
            1.001 * lower!,
            0.999 * upper!,
            1.001 * upper!,
            1.2 * upper!,
          ]
        : [];
      for (const from of [...ends, 0.5, 0.85].filter((one) => one > 0)) {
        for (const to of [...ends, 1.15, 2].filter((one) => one > from)) {
          const same = equivalenceTest(a, b, { ratioFrom: from, ratioTo: to }, { level });
          if (same.status !== "ok") throw new Error(same.reading);
          expect(same.equivalent, `${seed}, ${from} to ${to}, level ${level}`).toBe(
            bounded && lower! > from && upper! < to,
          );
          if (same.equivalent) shown += 1;
          else open += 1;
        }
      }
      const [low, high] = [test.lower - 0.1, test.upper + 0.1];
      for (const [differenceFrom, differenceTo, inside] of [
        [low, high, true],
        [low + 0.2, high, false],
        [low, high - 0.2, false],
      ] as const) {
        if (differenceFrom >= differenceTo) continue;
        expect(equivalenceTest(a, b, { differenceFrom, differenceTo }, { level })).toMatchObject({
          equivalent: inside,
        });
      }
    }
    // All that can happen did happen.
    expect(shown).toBeGreaterThan(500);
    expect(open).toBeGreaterThan(500);
    expect(unbounded).toBeGreaterThan(5);
  });

  it("turn to one over the ratio when the samples change places", () => {
    for (let seed = 0; seed < 200; seed += 1) {
      const { a, b } = samples(seed);
      const [there, back] = [ratioOfMeans(a, b), ratioOfMeans(b, a)];
      if (there.status !== "ok" || back.status !== "ok" || there.lower === 0) continue;
      expect(there.lower * back.upper).toBeCloseTo(1, 10);
    }
  });

  it("a smaller margin is never easier: p rises with the lower margin, though degrees of freedom change along it", () => {
    // B of two tests: one degree of freedom near θ = 0, more where A has most of the scatter.
    const [a, b] = [
      { mean: 5, variance: 1, degrees: 4 },
      { mean: 12, variance: 1, degrees: 1 },
    ];
    const side = ratioSide(a, b);
    const p = Array.from({ length: 300 }, (_, i) => side.pBelow(0.01 * i + 0.001));
    p.slice(1).forEach((one, i) => expect(one).toBeGreaterThanOrEqual(p[i]! - 1e-12));
    // Welch's t of these means is significant: so is 1 outside the interval.
    expect(side.pBelow(1)).toBeLessThan(0.025);
    expect(side.lowerEnd(0.025)).toBeGreaterThan(1);
    expect(contrastInterval(a, b, 0.95).lower).toBeCloseTo(side.lowerEnd(0.025), 12);
  });
});
