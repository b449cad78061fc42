import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { analysisOfVariance, equalVarianceTest } from "../../kernel-lib/src/statistics/comparison";
import {
  chiSquared,
  beta,
  f,
  lognormal,
  normal,
  studentT,
  weibull,
  type Distribution,
} from "../../kernel-lib/src/statistics/distributions";
import { createRandom } from "../../kernel-lib/src/statistics/random";
import { mean, sampleQuantile, standardDeviation } from "../../kernel-lib/src/statistics/sample";
import { silver, simonLesageSets } from "./comparison/nist-anova-sets";
import { expectRelative } from "./closeness";

/*
 * jStat is an implementation written by others. Its accuracy against R 4.2 sets each tolerance, not
 * ours: quantiles of t 6e-8, F 2e-8, chi-squared 1e-11, normal 5e-10, beta 4e-9; cdf of t 5e-8, F
 * 2e-8 (R: pf(1.4396069971990675, 3, 12) = 0.72; jStat gives 0.719999988812).
 */
interface Law {
  pdf(x: number, ...p: number[]): number;
  cdf(x: number, ...p: number[]): number;
  inv(p: number, ...q: number[]): number;
}
interface Other {
  normal: Law;
  studentt: Law;
  centralF: Law;
  chisquare: Law;
  beta: Law;
  lognormal: Law;
  weibull: Law;
  mean(x: readonly number[]): number;
  stdev(x: readonly number[], sample: boolean): number;
  median(x: readonly number[]): number;
  anovafscore(samples: readonly (readonly number[])[]): number;
}
const other = jstat.jStat as unknown as Other;

const laws: {
  name: string;
  ours: Distribution;
  theirs: Law;
  parameters: number[];
  quantile: number;
  cdf: number;
}[] = [
  {
    name: "normal",
    ours: normal(3, 2),
    theirs: other.normal,
    parameters: [3, 2],
    quantile: 5e-9,
    cdf: 1e-11,
  },
  {
    name: "t",
    ours: studentT(6),
    theirs: other.studentt,
    parameters: [6],
    quantile: 1e-7,
    cdf: 1e-7,
  },
  {
    name: "F",
    ours: f(3, 12),
    theirs: other.centralF,
    parameters: [3, 12],
    quantile: 1e-7,
    cdf: 5e-8,
  },
  {
    name: "chi-squared",
    ours: chiSquared(7),
    theirs: other.chisquare,
    parameters: [7],
    quantile: 1e-9,
    cdf: 1e-10,
  },
  {
    name: "beta",
    ours: beta(2, 5),
    theirs: other.beta,
    parameters: [2, 5],
    quantile: 1e-8,
    cdf: 1e-8,
  },
  {
    name: "lognormal",
    ours: lognormal(1, 0.4),
    theirs: other.lognormal,
    parameters: [1, 0.4],
    quantile: 5e-9,
    cdf: 1e-10,
  },
  {
    name: "Weibull",
    ours: weibull(9, 80),
    theirs: other.weibull,
    parameters: [80, 9],
    quantile: 1e-12,
    cdf: 1e-12,
  },
];

describe("jStat's opinion", () => {
  for (const { name, ours, theirs, parameters, quantile, cdf } of laws) {
    it(`of the ${name} distribution is ours within its own accuracy`, () => {
      for (let i = 1; i < 50; i++) {
        const p = i / 50;
        const x = ours.quantile(p);
        // Near a zero of the quantile the error counts against the spread.
        expect(Math.abs(theirs.inv(p, ...parameters) - x), `quantile ${p}`).toBeLessThanOrEqual(
          quantile * Math.max(Math.abs(x), ours.sd),
        );
        expectRelative(theirs.cdf(x, ...parameters), ours.cdf(x), cdf, `cdf ${x}`);
        expectRelative(theirs.pdf(x, ...parameters), ours.pdf(x), 1e-9, `pdf ${x}`);
      }
    });
  }
  it("of means, standard deviations, medians and F of random samples is ours", () => {
    const random = createRandom("second opinion");
    for (let round = 0; round < 200; round++) {
      const [a, b] = [3 + random.integer(8), 3 + random.integer(8)].map((n) =>
        Array.from({ length: n }, () => 40 + 5 * random.normal()),
      ) as [number[], number[]];
      expectRelative(mean(a), other.mean(a), 1e-14);
      expectRelative(standardDeviation(a), other.stdev(a, true), 1e-12);
      expectRelative(sampleQuantile(a, 0.5)!, other.median(a), 1e-14);
      const result = analysisOfVariance({ a, b });
      const pair = equalVarianceTest(a, b);
      if (result.status !== "ok" || pair.status !== "ok") throw new Error("expected a result");
      // Two ways through our own code, one through jStat's: F = t².
      expectRelative(result.f, other.anovafscore([a, b]), 1e-9);
      expectRelative(result.f, pair.t ** 2, 1e-9);
    }
  });
  it("is not asked where it fails: F of data with a large offset", () => {
    // The reason why inference stands on our own sums of squares; NIST StRD AtmWtAg and SmLs09.
    for (const set of [silver, simonLesageSets[8]!]) {
      const ours = analysisOfVariance(set.samples);
      if (ours.status !== "ok") throw new Error(ours.reading);
      const theirs = other.anovafscore(Object.values(set.samples));
      expect(Math.abs(ours.f / set.f - 1)).toBeLessThan(Math.abs(theirs / set.f - 1));
    }
  });
});
