import { describe, expect, it } from "vitest";
import { createRandom } from "../../../kernel-lib/src/statistics/random";
import {
  characteristicValue,
  covInterval,
  mean,
  meanInterval,
  meanMinusThreeSd,
  pooledSd,
  replicateRows,
  sampleQuantile,
  sdInterval,
  standardDeviation,
  summarize,
} from "../../../kernel-lib/src/statistics/sample";
import { noncentralT, toleranceFactor } from "../../../kernel-lib/src/statistics";
import { expectRelative } from "../closeness";

const a = [42, 45, 51, 47, 44, 38.5];
const all = [...a, 40, 39, 37, 44.5, 50, 52, 48, 55.5];

describe("summarize", () => {
  it("says mean, SD, COV and range, and counts what is missing", () => {
    const summary = summarize([...a, NaN]);
    expect(summary.n).toBe(6);
    expect(summary.excluded).toEqual([{ count: 1, reason: "missing value" }]);
    expectRelative(summary.mean!, 267.5 / 6, 1e-15);
    expectRelative(summary.sd! ** 2, 18.24166666666667, 1e-13); // R: var(a)
    expect([summary.min, summary.max, summary.median]).toEqual([38.5, 51, 44.5]);
  });
  it("gives null, never NaN, for what too few values cannot say", () => {
    expect(summarize([])).toMatchObject({
      n: 0,
      mean: null,
      sd: null,
      cov: null,
      min: null,
      median: null,
      max: null,
    });
    expect(summarize([3])).toMatchObject({ n: 1, mean: 3, sd: null, cov: null });
    expect(summarize([-1, 1]).cov).toBeNull();
    for (const values of [[], [3], [3, 3], [NaN]])
      expect(summarize(values).reading).not.toMatch(/NaN|undefined|null/);
    expect(() => summarize([1, Infinity])).toThrow(
      "summarize: value 1 is Infinity, expected a finite number",
    );
  });
  it("keeps its digits under a large offset (NIST StRD NumAcc3 and NumAcc4: SD 0.1 exactly)", () => {
    for (const offset of [1e6, 1e7]) {
      const values = [
        offset + 0.2,
        ...Array.from({ length: 1000 }, (_, i) => offset + (i % 2 === 0 ? 0.1 : 0.3)),
      ];
      expectRelative(mean(values), offset + 0.2, 1e-15);
      // The data themselves are rounded to 1e-9 of the SD.
      expectRelative(standardDeviation(values), 0.1, 2e-8);
    }
  });
  it("is moved by a shift and stretched by a scale", () => {
    const random = createRandom("equivariance");
    for (let k = 0; k < 50; k++) {
      const x = Array.from({ length: 7 }, () => 50 + 5 * random.normal());
      const moved = summarize(x.map((v) => 3 * v + 10));
      expectRelative(moved.mean!, 3 * summarize(x).mean! + 10, 1e-13);
      expectRelative(moved.sd!, 3 * summarize(x).sd!, 1e-12);
      expectRelative(summarize(random.shuffle(x)).sd!, summarize(x).sd!, 1e-12);
    }
  });
});

describe("sampleQuantile", () => {
  it("agrees with R: quantile(d, p, type = 6, 7, 8)", () => {
    const table = [
      [0.05, 37, 37.975, 37.075],
      [0.25, 39.75, 40.5, 39.9166666666667],
      [0.5, 44.75, 44.75, 44.75],
      [0.9, 53.75, 51.7, 52.8166666666667],
    ] as const;
    for (const [p, six, seven, eight] of table) {
      expectRelative(sampleQuantile(all, p, "type 6: mean of the order statistic")!, six, 1e-13);
      expectRelative(sampleQuantile(all, p, "type 7: spreadsheet and R default")!, seven, 1e-13);
      expectRelative(sampleQuantile(all, p)!, eight, 1e-13);
    }
    expect(sampleQuantile([], 0.5)).toBeNull();
    expect(() => sampleQuantile(all, -0.1)).toThrow(RangeError);
  });
});

describe("characteristicValue", () => {
  it("is mean − K·SD with the exact K, of x or of ln x", () => {
    const value = characteristicValue(a);
    if (value.status !== "ok") throw new Error(value.reading);
    expectRelative(value.value, mean(a) - toleranceFactor({ n: 6 }) * standardDeviation(a), 1e-14);
    const log = characteristicValue(a, { distribution: "lognormal", confidence: 0.75 });
    if (log.status !== "ok") throw new Error(log.reading);
    const logs = a.map(Math.log);
    // K(6, 75 %) = 2.3356 as R gives it.
    expectRelative(log.value, Math.exp(mean(logs) - 2.33559149 * standardDeviation(logs)), 1e-8);
    expect(value.reading).toBe(
      `With 90 % confidence at least 95 % of the population lies above ${Number(value.value.toPrecision(3))} (n = 6, k = 3.092, normal).`,
    );
  });
  it("takes a known SD, a pooled SD, the prediction form and order statistics", () => {
    const known = characteristicValue([45], { sdKnown: 4 });
    expect(known.status === "ok" && known.value).toBeCloseTo(45 - (1.6448536 + 1.2815516) * 4, 5);
    const pool = pooledSd([a, [40, 39, 37, 44.5], [50, 52, 48, 55.5]]);
    if (pool.status !== "ok") throw new Error(pool.reading);
    expectRelative(pool.sd ** 2 * 11, 152.083333333333, 1e-12); // R: anova(lm(y ~ g)) residual sum of squares
    const pooled = characteristicValue(a, { pooledSd: pool });
    expect(pooled.status === "ok" && pooled.k).toBe(
      toleranceFactor({ n: 6, degreesOfFreedom: 11 }),
    );
    const prediction = characteristicValue(a, { method: "prediction" });
    expect(prediction.status === "ok" && prediction.confidence).toBeNull();
    expect(prediction.status === "ok" && prediction.k?.toFixed(2)).toBe("2.18");
    expect(characteristicValue(a, { method: "order statistic" })).toMatchObject({
      status: "cannot be estimated",
      reason: "too few values",
    });
  });
  it("names what it cannot estimate", () => {
    expect(characteristicValue([])).toMatchObject({ reason: "too few values", n: 0 });
    expect(characteristicValue([1, 2])).toMatchObject({ reason: "too few values" });
    expect(characteristicValue([1, 2], { minimumCount: 2 }).status).toBe("ok");
    expect(characteristicValue([5, 5, 5])).toMatchObject({ reason: "no spread" });
    expect(characteristicValue([5, 0, 5], { distribution: "lognormal" })).toMatchObject({
      reason: "values not positive",
    });
    expect(characteristicValue([NaN, NaN, 1, 2]).excluded).toEqual([
      { count: 2, reason: "missing value" },
    ]);
    expect(() => characteristicValue(a, { sdKnown: -1 })).toThrow(
      "characteristicValue: sdKnown is -1, expected a positive number",
    );
    const negative = characteristicValue([1, 10, 4]);
    expect(negative.reading).toContain("The value is negative");
  });
  it("holds its confidence: 90 % of samples of five lie with their bound below the fractile", () => {
    const random = createRandom("coverage");
    let held = 0;
    for (let i = 0; i < 4000; i++) {
      const value = characteristicValue(Array.from({ length: 5 }, () => random.normal()));
      if (value.status === "ok" && value.value <= -1.6448536269514722) held += 1;
    }
    // Four standard errors of 4000 trials: 0.019.
    expect(Math.abs(held / 4000 - 0.9)).toBeLessThan(0.019);
  });
  it("moves with shift and scale (normal) and with scale (lognormal)", () => {
    const base = characteristicValue(a);
    const moved = characteristicValue(a.map((v) => 2 * v + 7));
    if (base.status !== "ok" || moved.status !== "ok") throw new Error("expected values");
    expectRelative(moved.value, 2 * base.value + 7, 1e-12);
  });
});

describe("intervals", () => {
  it("of the mean and the SD agree with R: t.test(a)$conf.int, sqrt(5 * var(a) / qchisq(c(.975, .025), 5))", () => {
    const sd = sdInterval(a);
    if (sd.status !== "ok") throw new Error(sd.reading);
    expectRelative(sd.lower, 2.6660088682245, 1e-12);
    expectRelative(sd.upper!, 10.475179139226, 1e-12);
    const centre = meanInterval(a);
    if (centre.status !== "ok") throw new Error(centre.reading);
    expectRelative(
      (centre.upper! - centre.lower) / 2,
      (2.57058183563631 * standardDeviation(a)) / Math.sqrt(6),
      1e-12,
    ); // R: qt(.975, 5)
  });
  it("of the COV puts the sample at both tails", () => {
    const cov = covInterval(a);
    if (cov.status !== "ok") throw new Error(cov.reading);
    const t = (Math.sqrt(6) * mean(a)) / standardDeviation(a);
    expectRelative(noncentralT(5, Math.sqrt(6) / cov.lower).cdf(t), 0.025, 1e-9);
    expectRelative(noncentralT(5, Math.sqrt(6) / cov.upper!).upperTail(t), 0.025, 1e-9);
    const wide = covInterval([1, -0.5, 2]);
    expect(wide.status === "ok" && wide.upper).toBeNull();
    expect(wide.reading).toContain("unbounded");
    expect(meanInterval([1])).toMatchObject({ reason: "too few values" });
    expect(sdInterval([2, 2])).toMatchObject({ reason: "no spread" });
    expect(covInterval([-1, -2])).toMatchObject({ reason: "values not positive" });
  });
  it("mean − 3 SD says that it carries no confidence", () => {
    const bound = meanMinusThreeSd([10, 12, 14]);
    expect(bound).toMatchObject({ status: "ok", value: 6 });
    expect(bound.reading).toContain("no stated confidence");
    expect(meanMinusThreeSd([1]).status).toBe("cannot be estimated");
  });
});

describe("replicateRows", () => {
  it("equals the single values where every mean brings its SD", () => {
    const first = a.slice(0, 4);
    const joined = replicateRows([
      { mean: mean(first), replicates: 4, sd: standardDeviation(first) },
      { mean: a[4]!, replicates: 1 },
      { mean: a[5]!, replicates: 1 },
    ]);
    if (joined.status !== "ok") throw new Error(joined.reading);
    expectRelative(joined.weightedMean, mean(a), 1e-14);
    expectRelative(joined.specimenSd!, standardDeviation(a), 1e-12);
  });
  it("says what stays hidden in means without SD, and refuses nonsense", () => {
    const hidden = replicateRows([
      { mean: 40, replicates: 3 },
      { mean: 42, replicates: 1 },
    ]);
    expect(hidden).toMatchObject({ specimenSd: null, hiddenSpecimens: 3, specimens: 4 });
    expect(hidden.reading).toContain("do not give the SD");
    expect(replicateRows([])).toMatchObject({ status: "cannot be estimated" });
    expect(() => replicateRows([{ mean: 1, replicates: 0 }])).toThrow(/replicates of row 0 are 0/);
  });
});
