import { describe, expect, it } from "vitest";
import { createRandom, studentT } from "../../../kernel-lib/src/statistics";
import {
  differenceBySeries,
  type ClassInSeries,
} from "../../../kernel-lib/src/statistics/series/difference-by-series";

const RATIOS = [
  1.02, 1.1, 0.95, 1.21, 1.15, 1.3, 0.88, 0.97, 0.84, 0.79, 0.9, 1.05, 0.99, 1.12, 1.01, 0.8, 0.86,
].map(Math.log);
const SERIES = [1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5, 5, 5, 5, 6, 6];
const BOUNDS = [1, 4, 9, 14];

const classOf = (
  y: readonly number[],
  series: readonly number[],
  censored: readonly boolean[] = y.map(() => false),
): ClassInSeries => ({
  sample: { y: Float64Array.from(y), censored: Uint8Array.from(censored, Number) },
  series,
});
const halves = (
  bounds: readonly number[],
  of: (y: number) => number = (y) => y,
): [ClassInSeries, ClassInSeries] => {
  const part = (from: number, to: number): ClassInSeries =>
    classOf(
      RATIOS.slice(from, to).map(of),
      SERIES.slice(from, to),
      RATIOS.slice(from, to).map((_, i) => bounds.includes(from + i)),
    );
  return [part(0, 8), part(8, 17)];
};

describe("differenceBySeries", () => {
  it('without lower bounds is R\'s nlme::lme(y ~ g, random = ~ 1 | series, method = "REML"), its degrees of freedom included', () => {
    const found = differenceBySeries(...halves([]));
    expect(found.estimate).toBeCloseTo(-0.1522917146, 8);
    expect(found.standardError).toBeCloseTo(0.10959501, 5);
    expect(found.degreesOfFreedom).toBe(4);
    expect(found.correlation).toBeCloseTo(0.8089717, 5);
  });

  it("with lower bounds is the same by R with other means: series effect summed over a grid of 0.04, nlminb, Hessian by differences, optimize", () => {
    const found = differenceBySeries(...halves(BOUNDS));
    // R maximizes over the difference with mean and ln SD integrated out, the library over all
    // three together: 3e-4 of the standard error apart.
    expect(Math.abs(found.estimate + 0.14791582) / 0.11797977).toBeLessThan(5e-4);
    expect(Math.abs(found.standardError / 0.11797977 - 1)).toBeLessThan(3e-3);
    expect(Math.abs(found.correlation - 0.82024735)).toBeLessThan(2e-3);
    expect(found.degreesOfFreedom).toBe(4);
  });

  it("is the mirror image when the classes change places, and keeps its t in other units", () => {
    for (const bounds of [[], BOUNDS]) {
      const [a, b] = halves(bounds);
      const [there, back] = [differenceBySeries(a, b), differenceBySeries(b, a)];
      expect(back.estimate).toBeCloseTo(-there.estimate, 5);
      expect(back.standardError / there.standardError).toBeCloseTo(1, 4);
      const scaled = differenceBySeries(...halves(bounds, (y) => 1000 * y + 40));
      expect(scaled.estimate / there.estimate).toBeCloseTo(1000, 2);
      expect(scaled.standardError / there.standardError).toBeCloseTo(1000, 1);
    }
  });

  it("a lower bound far below all else changes nearly nothing", () => {
    const [a, b] = halves([]);
    const more = classOf(
      [...RATIOS.slice(0, 8), -9],
      [...SERIES.slice(0, 8), 2],
      [...RATIOS.slice(0, 8).map(() => false), true],
    );
    const [plain, bounded] = [differenceBySeries(a, b), differenceBySeries(more, b)];
    expect(bounded.estimate).toBeCloseTo(plain.estimate, 4);
    expect(bounded.standardError / plain.standardError).toBeCloseTo(1, 3);
    expect(bounded.degreesOfFreedom).toBe(4);
  });

  it("of series of equal size is the t of their means where series differ", () => {
    const y = [1, 1.1, 1.05, 1.6, 1.7, 1.62, 2.1, 2.2, 2.13, 2.5, 2.6, 2.52];
    const found = differenceBySeries(
      classOf(y.slice(0, 6), [1, 1, 1, 2, 2, 2]),
      classOf(y.slice(6), [3, 3, 3, 4, 4, 4]),
    );
    const means = [0, 3, 6, 9].map((i) => (y[i]! + y[i + 1]! + y[i + 2]!) / 3);
    const variance = ((means[0]! - means[1]!) ** 2 / 2 + (means[2]! - means[3]!) ** 2 / 2) / 2;
    expect(found.estimate).toBeCloseTo((means[2]! + means[3]! - means[0]! - means[1]!) / 2, 8);
    expect(found.standardError).toBeCloseTo(Math.sqrt(variance), 5);
    expect(found.degreesOfFreedom).toBe(2);
  });

  it("series that agree more closely than their tests scatter give no interval of width 0", () => {
    const spread = [-0.1, 0, 0.1];
    const [a, b] = [0, 0.05].map((shift) =>
      classOf(
        [...spread, ...spread].map((y) => y + shift),
        [1, 1, 1, 2, 2, 2],
      ),
    );
    const { estimate, standardError, correlation } = differenceBySeries(a!, b!);
    expect(estimate).toBeCloseTo(0.05, 8);
    expect(correlation).toBe(0);
    // σ̂/√6 of each mean, with SD 0.1 √(8/10) of twelve tests about two means.
    expect(standardError).toBeCloseTo(0.1 * Math.sqrt(0.8) * Math.sqrt(2 / 6), 5);
  });

  it("refuses one series in a class, and failures that do not scatter", () => {
    const [a, b] = halves([]);
    expect(() => differenceBySeries(classOf([1, 2, 3], [1, 1, 1]), b)).toThrow(
      /1 and 3 series with a failure, expected at least 2/,
    );
    expect(() =>
      differenceBySeries(classOf([1, 1, 1], [1, 2, 2]), classOf([2, 2, 2], [1, 2, 2])),
    ).toThrow(/no scatter/);
    // One class without scatter: the other still shows it.
    expect(differenceBySeries(a, classOf([0, 0, 0], [1, 1, 2])).standardError).toBeGreaterThan(0);
  });

  it("calls equal classes different no more often than 7 % at 5 %, with 2 or 4 series a class, alike or not, with and without lower bounds", () => {
    const random = createRandom("false alarms of the difference by series");
    const draw = (count: number, correlation: number, bounded: boolean): ClassInSeries => {
      const rows = Array.from({ length: count }, (_, g) => g).flatMap((g) => {
        const shift = Math.sqrt(correlation) * random.normal();
        return [0, 1, 2].map(() => {
          const [value, limit] = [
            shift + Math.sqrt(1 - correlation) * random.normal(),
            bounded ? 0.7416 + random.normal() : Infinity,
          ];
          return { y: Math.min(value, limit), bound: value > limit, g };
        });
      });
      return classOf(
        rows.map(({ y }) => y),
        rows.map(({ g }) => g),
        rows.map(({ bound }) => bound),
      );
    };
    const failed = ({ sample, series }: ClassInSeries): number =>
      new Set(series.filter((_, i) => sample.censored[i] !== 1)).size;
    for (const bounded of [false, true]) {
      for (const count of [2, 4]) {
        let [made, called] = [0, 0];
        while (made < 150) {
          const [a, b] = [
            draw(count, made % 2 === 0 ? 0 : 0.8, bounded),
            draw(count, made % 2 === 0 ? 0 : 0.8, bounded),
          ];
          if (Math.min(failed(a), failed(b)) < 2) continue;
          made += 1;
          const { estimate, standardError, degreesOfFreedom } = differenceBySeries(a, b);
          if (2 * studentT(degreesOfFreedom).upperTail(Math.abs(estimate) / standardError) < 0.05)
            called += 1;
        }
        // 7 % of 150 with twice the binomial standard error of 5 %.
        expect(called, `${count} series, ${bounded}`).toBeLessThanOrEqual(
          150 * 0.05 + 2 * Math.sqrt(150 * 0.05 * 0.95),
        );
      }
    }
  }, 60_000);
});
