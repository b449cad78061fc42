import { describe, expect, it } from "vitest";
import { maximiseCensored } from "../../../kernel-lib/src/statistics/censoring/censored-likelihood";
import { maximumOf } from "../../../kernel-lib/src/statistics/censoring/censored-maximum";
import {
  lawOf,
  type CensoredDistribution,
} from "../../../kernel-lib/src/statistics/censoring/location-scale-law";
import { sampleLikelihood } from "../../../kernel-lib/src/statistics/censoring/sample-likelihood";
import { createRandom, type Random } from "../../../kernel-lib/src/statistics/random";
import {
  logNormalIntegral,
  logNormalIntegralWithHazard,
  normalHazardBelow,
  normalQuantile,
} from "../../../kernel-lib/src/statistics/special/normal-integral";

const LAWS: readonly CensoredDistribution[] = ["normal", "lognormal", "weibull"];

/** Values around `centre`, some of them lower bounds; at least two failures. */
function draw(
  random: Random,
  centre: number,
  scale: number,
): { y: Float64Array; censored: Uint8Array } {
  const n = 3 + Math.floor(random.uniform() * 40);
  const y = Float64Array.from(
    { length: n },
    () => centre + scale * normalQuantile(random.uniform()),
  );
  return { y, censored: Uint8Array.from(y, (_, i) => (i < 2 || random.uniform() > 0.4 ? 0 : 1)) };
}

describe("the likelihood of a sample without covariates, from sums", () => {
  it("has the value, slopes and curvatures of the plain sum over all values", () => {
    const random = createRandom("fast sums");
    for (const distribution of LAWS)
      for (let time = 0; time < 60; time += 1) {
        const law = lawOf(distribution);
        const { y, censored } = draw(random, 0, 1);
        const failed = [...y].filter((_, i) => censored[i] === 0);
        const mean = failed.reduce((sum, one) => sum + one, 0) / failed.length;
        const sample = {
          failed: failed.map((one) => one - mean),
          lowerBounds: [...y].filter((_, i) => censored[i] === 1).map((one) => one - mean),
        };
        const [g, tau] = [3 * random.uniform() - 1.5, 0.3 + 2 * random.uniform()];
        const out = new Float64Array(3);
        const plain = [0, 0, 0, 0, 0, 0];
        const add = (one: number, logOf: typeof law.density, tauTimes: number): void => {
          logOf(tau * one - g, out);
          const [value, first, second] = [out[0]!, out[1]!, out[2]!];
          [
            value + tauTimes * Math.log(tau),
            -first,
            first * one + tauTimes / tau,
            -second,
            second * one,
            -second * one * one + tauTimes / tau ** 2,
          ].forEach((part, k) => (plain[k]! += part));
        };
        sample.failed.forEach((one) => add(one, law.density, 1));
        sample.lowerBounds.forEach((one) => add(one, law.survival, 0));
        const into = new Float64Array(5);
        const fast = [sampleLikelihood(sample, law)(g, tau, into), ...into];
        fast.forEach((part, k) =>
          expect(Math.abs(part - plain[k]!)).toBeLessThan(1e-12 * (y.length + Math.abs(plain[k]!))),
        );
      }
  });

  it("has its maximum where the search for rows with covariates finds it, from any start and in any units", () => {
    const random = createRandom("fast maximum");
    for (const distribution of LAWS)
      for (let time = 0; time < 60; time += 1) {
        const law = lawOf(distribution);
        const scale = 10 ** (4 * random.uniform() - 2);
        const sample = draw(random, 5 * scale, scale);
        const rows = { ...sample, columns: [new Float64Array(sample.y.length).fill(1)] };
        const general = maximiseCensored(rows, law, { coefficients: [5 * scale], sigma: scale });
        for (const near of [
          undefined,
          { coefficients: Float64Array.of(4 * scale), sigma: 2 * scale },
        ]) {
          const fast = maximumOf(sample, law, near);
          expect(Math.abs(fast.coefficients[0]! - general.coefficients[0]!)).toBeLessThan(
            1e-11 * general.sigma + 1e-12 * Math.abs(general.coefficients[0]!),
          );
          expect(Math.abs(fast.sigma / general.sigma - 1)).toBeLessThan(1e-11);
          expect(Math.abs(fast.logLikelihood - general.logLikelihood)).toBeLessThan(
            1e-11 * (1 + Math.abs(general.logLikelihood)),
          );
        }
      }
  });

  it("two failures that are alike have no maximum, alone and with a lower bound below them", () => {
    for (const distribution of LAWS)
      for (const lowerBounds of [[], [0.5]]) {
        const y = Float64Array.of(1, 1, ...lowerBounds);
        expect(() =>
          maximumOf(
            { y, censored: Uint8Array.from(y, (_, i) => (i < 2 ? 0 : 1)) },
            lawOf(distribution),
          ),
        ).toThrow("no finite maximum");
      }
  });
});

it("ln Phi and the hazard together have the bits of each alone", () => {
  const out = new Float64Array(2);
  for (let z = -40; z <= 40; z += 0.0371) {
    logNormalIntegralWithHazard(z, out);
    expect([...out]).toEqual([logNormalIntegral(z), normalHazardBelow(z)]);
  }
});
