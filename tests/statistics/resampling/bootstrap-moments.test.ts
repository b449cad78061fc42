import { describe, expect, it } from "vitest";
import { createRandom } from "../../../kernel-lib/src/statistics/random";
import { bootstrap, bootstrapMoments } from "../../../kernel-lib/src/statistics/resampling";
import { sortReplicates } from "../../../kernel-lib/src/statistics/resampling/sort-replicates";
import { mean, standardDeviation } from "../../../kernel-lib/src/statistics/sample/moments";

describe("bootstrap of a statistic of mean and SD", () => {
  const characteristic = (m: number, s: number): number => m - 2.01 * s;

  // 2 to 6 indices a word, tables of pairs up to 128, an odd last one, none above.
  it.each([2, 5, 12, 40, 41, 100, 127, 128, 129, 300, 2000])("is the bootstrap of the values themselves, n = %i", (n) => {
    const random = createRandom(`moments ${n}`);
    const values = Array.from({ length: n }, () => 500 + random.normal());
    const fast = bootstrapMoments(values, characteristic, { seed: 3, resamples: 400, confidence: 0.9 });
    const plain = bootstrap(values, (x) => characteristic(mean(x), standardDeviation(x)), { seed: 3, resamples: 400, confidence: 0.9 });
    expect(fast.replicates.length).toBe(plain.replicates.length);
    fast.replicates.forEach((value, i) => { expect(Math.abs(value / plain.replicates[i]! - 1)).toBeLessThan(1e-12); });
    expect(fast.lower).toBeCloseTo(plain.lower, 9);
    expect(fast.upper).toBeCloseTo(plain.upper, 9);
    expect(fast.acceleration === null).toBe(plain.acceleration === null);
    expect(fast.acceleration ?? 0).toBeCloseTo(plain.acceleration ?? 0, 9);
    expect(fast.method).toBe(plain.method);
  });

  it("sets missing values aside and refuses fewer than two", () => {
    expect(bootstrapMoments([1, NaN, 2, 4], (m) => m, { seed: 1, resamples: 100 }).setAside).toEqual([{ row: 1, reason: "no finite value" }]);
    expect(() => bootstrapMoments([1], (m) => m, { seed: 1 })).toThrow("1 rows to draw from");
    expect(() => bootstrapMoments([0, 0, 0], (m, s) => s / m, { seed: 1 })).toThrow("expected a finite number");
    expect(bootstrapMoments([3, 3, 3], (m) => m, { seed: 1, resamples: 100 }).reading).toContain("no measure of its uncertainty");
  });
});

describe("order of replicates", () => {
  const random = createRandom("order");
  const samples: Record<string, number[]> = {
    even: Array.from({ length: 1000 }, () => random.uniform()),
    normal: Array.from({ length: 5000 }, () => random.normal()),
    "many ties": Array.from({ length: 1000 }, () => random.integer(5)),
    "a far outlier": [1e12, ...Array.from({ length: 999 }, () => random.normal())],
    "heavy tails": Array.from({ length: 3000 }, () => random.normal() / random.normal()),
    "all equal": Array.from({ length: 500 }, () => 2),
    few: [3, 1, 2],
    none: [],
    "signed zeros": Array.from({ length: 300 }, (_, i) => [0, -0, 1, -1][i % 4]!),
  };
  it.each(Object.keys(samples))("is that of a plain sort: %s", (name) => {
    const values = samples[name]!;
    expect(Array.from(sortReplicates(Float64Array.from(values)), (v) => v + 0)).toEqual([...values].sort((a, b) => a - b).map((v) => v + 0));
  });
});
