import { describe, expect, it } from "vitest";
import {
  analysisOfVariance,
  createRandom,
  nestedAnalysisOfVariance,
  type GroupInSeries,
} from "../../../kernel-lib/src/statistics";

/** Values of each series of each group. */
type Groups = Readonly<Record<string, readonly (readonly number[])[]>>;
const UNEQUAL: Groups = {
  a: [
    [10.1, 10.9, 9.4],
    [12, 11.2, 11.8, 12.5],
    [9, 9.9],
    [10.4, 11.3, 10.8, 9.7, 10.2],
  ],
  b: [[8.6, 9.3, 8.9], [11], [12.9, 12.2, 13.1, 12.4, 12.6, 12.8]],
  c: [[8.1, 8.4], [7.2, 8, 7.7], [9.9, 9.3], [8.8]],
};
const HEAVY: Groups = {
  a: [[10.2, 9.7, 10.1, 9.9, 10.4, 9.8, 10, 10.3], [12], [8.5]],
  b: [[11], [9.2], [13.1, 12.8, 13, 12.6, 13.3, 12.9, 13.2]],
};

const inSeries = (
  groups: Groups,
  of: (value: number) => number = (value) => value,
): GroupInSeries[] =>
  Object.entries(groups).map(([name, series]) => ({
    name,
    values: series.flat().map(of),
    series: series.flatMap((one, j) => one.map(() => j)),
  }));
function found(groups: readonly GroupInSeries[]) {
  const result = nestedAnalysisOfVariance(groups);
  if (result.status !== "ok") throw new Error(result.reading);
  return result;
}

describe("nestedAnalysisOfVariance", () => {
  it("is R's aov with an error stratum of series, for series of equal size", () => {
    const y = {
      a: [
        [1.02, 0.95, 1.1],
        [0.88, 1.05, 0.99],
        [1.21, 1.17, 1.12],
      ],
      b: [
        [0.91, 0.85, 1],
        [0.79, 0.97, 0.9],
        [0.83, 0.8, 0.86],
      ],
    };
    const {
      meanSquareGroups,
      meanSquareSeries,
      meanSquareWithin,
      share,
      f,
      numeratorDegrees,
      denominatorDegrees,
      p,
    } = found(inSeries(y, Math.log));
    // R: summary(aov(log(y) ~ group + Error(series))), series a factor of 6 levels
    expect(meanSquareGroups).toBeCloseTo(0.1465834102, 10);
    expect(meanSquareSeries).toBeCloseTo(0.01734797457, 10);
    expect(meanSquareWithin).toBeCloseTo(0.005620389313, 10);
    expect([share, numeratorDegrees]).toEqual([1, 1]);
    expect(denominatorDegrees).toBeCloseTo(4, 12);
    expect(f).toBeCloseTo(8.4496, 4);
    expect(p).toBeCloseTo(0.043817, 6);
  });
  it("with series of unequal size is the quadratic forms and traces of nested-analysis.py, an error beyond MS_series with it", () => {
    for (const [groups, printed] of [
      [
        UNEQUAL,
        [
          20.7773571429, 5.33830654762, 0.248515873016, 1.31868500503, 2.98510384504, 7.8206277534,
          0.108817372973,
        ],
      ],
      [
        HEAVY,
        [
          24.0750935673, 5.19066269841, 0.0591208791209, 3.62897342366, 1.28872345263, 3.9341798053,
          0.320674812541,
        ],
      ],
    ] as const) {
      const {
        meanSquareGroups,
        meanSquareSeries,
        meanSquareWithin,
        share,
        f,
        denominatorDegrees,
        p,
      } = found(inSeries(groups));
      [
        meanSquareGroups,
        meanSquareSeries,
        meanSquareWithin,
        share,
        f,
        denominatorDegrees,
        p,
      ].forEach((value, k) => expect(value / (printed[k] ?? NaN)).toBeCloseTo(1, 10));
    }
  });
  it("with one value a series is the classical one-way analysis, and never extrapolates below MS_series", () => {
    const groups = Object.entries(UNEQUAL).map(([name, series]) => ({
      name,
      values: series.flat(),
      series: series.flat().map((_, j) => j),
    }));
    const classical = analysisOfVariance(
      Object.fromEntries(groups.map(({ name, values }) => [name, values])),
    );
    expect(found(groups).p).toBeCloseTo(classical.status === "ok" ? classical.p : NaN, 12);
    const quiet = found(
      inSeries({
        a: [[9, 11, 10, 8, 12], [10.1], [9.9]],
        b: [[10.2], [9.8], [8.5, 11.5, 10, 9, 11]],
      }),
    );
    expect(quiet.meanSquareSeries).toBeLessThan(quiet.meanSquareWithin);
    expect(quiet.share).toBeGreaterThan(1);
    expect(quiet).toMatchObject({ meanSquareError: quiet.meanSquareSeries, denominatorDegrees: 4 });
  });
  it("does not heed shift and scale, and keeps its digits under a large offset", () => {
    const plain = found(inSeries(UNEQUAL));
    expect(found(inSeries(UNEQUAL, (value) => 3 * value + 1e7)).f).toBeCloseTo(plain.f, 6);
  });
  it("refuses series means that differ by rounding only, about any origin, and warns where they agree too closely", () => {
    const spread = [-0.1, 0, 0.1];
    for (const origin of [0, 0.025, 1, 1e3]) {
      const of = (shift: number): number[][] =>
        [spread, [...spread].reverse()].map((one) => one.map((value) => origin + shift + value));
      expect(nestedAnalysisOfVariance(inSeries({ a: of(0), b: of(0.05) }))).toMatchObject({
        status: "cannot be estimated",
        reason: "no spread",
      });
    }
    const close = (shift: number): number[][] => [
      spread.map((value) => value + shift),
      spread.map((value) => value + shift + 1e-3),
    ];
    expect(found(inSeries({ a: close(0), b: close(0.05) })).reading).toMatch(
      /Caution: the series of a group agree more closely than the scatter of their tests can explain/,
    );
    expect(found(inSeries(UNEQUAL)).reading).not.toContain("Caution");
  });
  it("refuses a group of one series and says which", () => {
    expect(
      nestedAnalysisOfVariance(
        inSeries({
          a: [[1, 2, 3]],
          b: [
            [1, 2],
            [2, 3],
          ],
        }),
      ),
    ).toMatchObject({
      status: "cannot be estimated",
      reason: "too few series",
      needed: "at least 2 series in every group, to estimate between-series variance (a has 1)",
    });
    expect(nestedAnalysisOfVariance(inSeries({ a: [[1], [2]] }))).toMatchObject({
      status: "cannot be estimated",
      reason: "too few groups",
    });
    expect(
      nestedAnalysisOfVariance(inSeries({ a: [[1, 1], [1]], b: [[2], [2, 2]] })),
    ).toMatchObject({ status: "cannot be estimated", reason: "no spread" });
    expect(() => nestedAnalysisOfVariance([{ name: "a", values: [1, 2], series: [1] }])).toThrow(
      "a has 2 values and 1 names of series",
    );
    expect(() =>
      nestedAnalysisOfVariance([{ name: "a", values: [1, NaN], series: [1, 2] }]),
    ).toThrow("value 2 of a is NaN");
  });
  it("calls groups of one law different in 5 % of samples of unequal series, however alike the values of a series are", () => {
    const sizes = [
      [2, 5, 3, 8],
      [4, 4, 1, 6, 2, 3],
    ];
    for (const correlation of [0, 0.3, 0.8]) {
      const random = createRandom(`nested ${correlation}`);
      let alarms = 0;
      for (let sample = 0; sample < 1000; sample++) {
        const groups = sizes.map((group, i) => ({
          name: `g${i}`,
          series: group.flatMap((count, j) => Array.from({ length: count }, () => j)),
          values: group.flatMap((count) => {
            const shift = Math.sqrt(correlation) * random.normal();
            return Array.from(
              { length: count },
              () => shift + Math.sqrt(1 - correlation) * random.normal(),
            );
          }),
        }));
        if (found(groups).p < 0.05) alarms += 1;
      }
      // Binomial standard error 0.7 %; Satterthwaite's degrees of freedom are approximate.
      expect(Math.abs(alarms / 1000 - 0.05)).toBeLessThan(0.025);
    }
  });
});
