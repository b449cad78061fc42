import { describe, expect, it } from "vitest";
import {
  bcaInterval,
  bootstrap,
  bootstrapRows,
  jackknifeInfluence,
  replicateQuantile,
} from "../../../kernel-lib/src/statistics/resampling";

const x = [92.1, 101.4, 88.3, 110.2, 95.7, 99.9, 104.5, 87.2, 120.3, 93.8, 98.6, 107.7];
const mean = (v: ArrayLike<number>): number => {
  let s = 0;
  for (let i = 0; i < v.length; i += 1) s += v[i]!;
  return s / v.length;
};
const sd = (v: ArrayLike<number>): number => {
  const m = mean(v);
  let s = 0;
  for (let i = 0; i < v.length; i += 1) s += (v[i]! - m) ** 2;
  return Math.sqrt(s / (v.length - 1));
};
const ratio = (v: ArrayLike<number>): number => mean(v) / sd(v);
// R boot::empinf(data = x, statistic = function(d, i) mean(d[i]) / sd(d[i]), type = "jack", stype =
// "i")
const influence = Float64Array.of(
  0.705255525452595,
  5.338405195398032,
  -4.865882046240136,
  -0.264646144754915,
  3.807488033150044,
  5.307871134946126,
  4.55589351643223,
  -7.043782878117389,
  -28.872725493270842,
  2.39945069277303,
  5.069008434207561,
  2.453840724650016,
);

describe("bootstrap intervals", () => {
  it('BCa ranks agree with R boot.ci(b, type = "bca", conf = .9, L = L) on given replicates', () => {
    const replicates = Float64Array.from(
      { length: 199 },
      (_, i) => ratio(x) * (1 + 0.35 * ((((i + 1) * Math.SQRT2) % 1) - 0.42)),
    ).sort();
    const below = replicates.filter((t) => t < ratio(x)).length;
    // Replicates replaced by their ranks 1..199: the interval is then the rank itself, which R
    // prints as 1.06 and 170.09.
    const ranks = Float64Array.from({ length: 199 }, (_, i) => i + 1);
    const interval = bcaInterval(ranks, below + 0.5, influence, 0.9)!;
    expect(interval.lower).toBeCloseTo(1.06, 2);
    expect(interval.upper).toBeCloseTo(170.09, 2);
  });

  it("jackknife influence differs from R's only by centring on the mean of the leave-one-out values, not on the observed one", () => {
    const leftOut = Float64Array.from(x, (_, i) => ratio(x.filter((_v, k) => k !== i)));
    const ours = jackknifeInfluence(leftOut, [Int32Array.from(x.keys())]);
    const shift = mean(influence) - mean(ours);
    ours.forEach((value, i) => {
      expect(value + shift).toBeCloseTo(influence[i]!, 9);
    });
    expect(mean(ours)).toBeCloseTo(0, 10);
  });

  it("percentile interval of 100,000 resamples agrees with R boot (8.412, 16.624; its own noise about 0.05)", () => {
    const b = bootstrap(x, ratio, {
      seed: 1,
      resamples: 100_000,
      method: "percentile",
      confidence: 0.9,
    });
    expect(Math.abs(b.lower - 8.41175756246345)).toBeLessThan(0.06);
    expect(Math.abs(b.upper - 16.6243220179641)).toBeLessThan(0.2);
  });

  it("of the mean: standard error is sd sqrt((n - 1) / n) / sqrt(n), bias none", () => {
    const b = bootstrap(x, mean, { seed: "mean", resamples: 50_000 });
    const expected = (sd(x) * Math.sqrt(11 / 12)) / Math.sqrt(12);
    expect(Math.abs(b.standardError / expected - 1)).toBeLessThan(0.015);
    expect(Math.abs(b.bias)).toBeLessThan(0.05);
    expect(b.reading).toContain("95 % interval");
  });

  it("the same seed gives the same bytes, another seed others", () => {
    const run = (seed: number): Float64Array =>
      bootstrap(x, ratio, { seed, resamples: 500 }).replicates;
    expect(Buffer.from(run(7).buffer).equals(Buffer.from(run(7).buffer))).toBe(true);
    expect(run(7)).not.toEqual(run(8));
  });

  it("shift and scale equivariance of the percentile interval of the mean", () => {
    const a = bootstrap(x, mean, { seed: 3, resamples: 1000 });
    const b = bootstrap(
      x.map((v) => 1000 + 2 * v),
      mean,
      { seed: 3, resamples: 1000 },
    );
    expect(b.lower).toBeCloseTo(1000 + 2 * a.lower, 8);
    expect(b.upper).toBeCloseTo(1000 + 2 * a.upper, 8);
  });

  it("strata keep their sizes, clusters stay whole", () => {
    const strata = x.map((_, i) => (i < 4 ? "a" : "b"));
    bootstrapRows(
      12,
      (rows) => {
        expect(rows.filter((r) => r < 4).length).toBe(4);
        return rows[0]!;
      },
      { seed: 1, resamples: 100, strata, method: "percentile" },
    );
    const clusters = x.map((_, i) => `study ${Math.floor(i / 3)}`);
    const b = bootstrapRows(
      12,
      (rows) => {
        const counts = new Int32Array(12);
        rows.forEach((r) => {
          counts[r] = counts[r]! + 1;
        });
        for (let i = 0; i < 12; i += 1) expect(counts[i]).toBe(counts[3 * Math.floor(i / 3)]);
        return mean(Array.from(rows, (r) => x[r]!));
      },
      { seed: 1, resamples: 200, clusters },
    );
    expect(b.method).toContain("4 clusters");
    expect(b.warnings.join()).toContain("Only 4 clusters");
  });

  it("tells progress up to the end", () => {
    const shares: number[] = [];
    bootstrap(x, mean, { seed: 1, resamples: 1050, onProgress: (s) => shares.push(s) });
    expect(shares[shares.length - 1]).toBe(1);
    expect(shares.length).toBeLessThan(110);
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
  });

  it("bad input: each a clear error or an honest result", () => {
    expect(() => bootstrap([], mean, { seed: 1 })).toThrow("0 rows to draw from");
    expect(() => bootstrap([1], mean, { seed: 1 })).toThrow("expected at least 2");
    expect(() => bootstrap(x, mean, { seed: 1, resamples: 10 })).toThrow(
      "expected a whole number of at least 100",
    );
    expect(() => bootstrap(x, () => NaN, { seed: 1 })).toThrow("expected a finite number");
    expect(() => bootstrap(x, mean, { seed: 1, clusters: ["a"] })).toThrow("expected 12");
    expect(() => bootstrap(x, mean, { seed: 1, clusters: x.map(() => "one") })).toThrow(
      "1 clusters",
    );
    expect(() =>
      bootstrap(x, mean, {
        seed: 1,
        clusters: x.map((_, i) => i % 2),
        strata: x.map((_, i) => i % 3),
      }),
    ).toThrow("within one stratum");
    const equal = bootstrap([5, 5, 5, 5], mean, { seed: 1, resamples: 200 });
    expect(equal.reading).toContain("no measure of its uncertainty");
    expect([equal.lower, equal.upper, equal.standardError]).toEqual([5, 5, 0]);
    expect(equal.warnings.join()).toMatch(
      /interval has zero width and does not measure uncertainty/,
    );
    const gap = bootstrap([...x, NaN], mean, { seed: 1, resamples: 200 });
    expect(gap.excluded).toEqual([{ row: 12, reason: "no finite value" }]);
    const odd = bootstrap([1, 2, 3], (v) => (sd(v) > 0 ? 1 / sd(v) : Infinity), {
      seed: 1,
      resamples: 1000,
    });
    expect(odd.failedResamples).toBeGreaterThan(0);
    expect(odd.warnings.join()).toContain("gave no finite value");
  });

  it("replicate quantile is R's quantile(type = 6)", () => {
    // quantile(c(1, 2, 4, 8, 16), c(.1, .25, .5, .9), type = 6): 1.0, 1.5, 4.0, 16.0
    const sorted = Float64Array.of(1, 2, 4, 8, 16);
    expect([0.1, 0.25, 0.5, 0.9].map((p) => replicateQuantile(sorted, p))).toEqual([1, 1.5, 4, 16]);
  });
});

describe("drawn indices", () => {
  it("are even: chi-square of 60,000 draws over n cells stays below its 1e-4 upper quantile, for sizes that pack differently", () => {
    // R qchisq(1e-4, n - 1, lower.tail = FALSE) for n = 2, 3, 7, 40, 300
    for (const [n, limit] of [
      [2, 15.13671],
      [3, 18.42068],
      [7, 27.85634],
      [40, 80.64617],
      [300, 398.6041],
    ] as const) {
      const counts = new Float64Array(n);
      let total = 0;
      bootstrapRows(
        n,
        (rows) => {
          for (const r of rows) {
            expect(r >= 0 && r < n).toBe(true);
            counts[r] = counts[r]! + 1;
          }
          total += rows.length;
          return rows[0]!;
        },
        { seed: n, resamples: Math.max(100, Math.ceil(60_000 / n)), method: "percentile" },
      );
      const expected = total / n;
      expect(counts.reduce((s, c) => s + (c - expected) ** 2 / expected, 0)).toBeLessThan(limit);
    }
  });
});
