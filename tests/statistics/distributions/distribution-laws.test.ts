import { describe, expect, it } from "vitest";
import type { Distribution } from "../../../kernel-lib/src/statistics/distributions";
import {
  beta,
  chiSquared,
  f,
  gamma,
  gumbel,
  lognormal,
  noncentralT,
  normal,
  studentT,
  weibull,
} from "../../../kernel-lib/src/statistics/distributions";
import { gaussLegendre } from "../../../kernel-lib/src/statistics/special/quadrature";
import { expectRelative } from "../closeness";

const all: Distribution[] = [
  normal(45, 4),
  lognormal(3.8, 0.2),
  weibull(9, 50),
  gumbel(20, 3),
  gamma(2.5, 4),
  chiSquared(3),
  beta(3, 5),
  f(4, 9),
  studentT(2.7),
  noncentralT(6, 2.5),
];

describe.each(all.map((law) => [law.name, law] as const))("%s", (_name, law) => {
  it("has quantiles that invert the distribution function, also far out", () => {
    for (const p of [1e-12, 1e-6, 0.01, 0.3, 0.5, 0.9]) {
      expectRelative(law.cdf(law.quantile(p)), p, 1e-10, `lower ${p}`);
      expectRelative(law.upperTail(law.upperQuantile(p)), p, 1e-10, `upper ${p}`);
    }
  });
  it("has tails that add to one and logarithms that agree", () => {
    for (const p of [0.01, 0.2, 0.5, 0.77, 0.99]) {
      const x = law.quantile(p);
      expectRelative(law.cdf(x) + law.upperTail(x), 1, 1e-12);
      expectRelative(Math.exp(law.logCdf(x)), law.cdf(x), 1e-11);
      expectRelative(Math.exp(law.logUpperTail(x)), law.upperTail(x), 1e-11);
      expectRelative(Math.exp(law.logPdf(x)), law.pdf(x), 1e-13);
    }
  });
  it("has a density that integrates to the distribution function", () => {
    const { nodes, weights } = gaussLegendre(20);
    const from = law.quantile(0.1);
    const to = law.quantile(0.8);
    let sum = 0;
    for (let panel = 0; panel < 4; panel++) {
      const half = (to - from) / 8;
      for (let i = 0; i < 20; i++)
        sum += weights[i]! * half * law.pdf(from + half * (2 * panel + 1 + nodes[i]!));
    }
    expectRelative(sum, 0.7, 1e-9);
  });
  it("gives NaN for a missing x, throws for a probability outside 0 to 1, and ends at its range", () => {
    expect(law.cdf(NaN)).toBeNaN();
    expect(() => law.quantile(1.2)).toThrow(RangeError);
    expect(() => law.quantile(NaN)).toThrow(/expected a number from 0 to 1/);
    expect(law.quantile(0)).toBe(law.range[0]);
    expect(law.quantile(1)).toBe(law.range[1]);
  });
});

describe("parameters", () => {
  it("that make no distribution are refused with the value and what was expected", () => {
    expect(() => normal(0, 0)).toThrow("normal: sd is 0, expected a positive number");
    expect(() => studentT(-1)).toThrow(/degrees of freedom is -1/);
    expect(() => beta(0, 1)).toThrow(RangeError);
    expect(() => noncentralT(4, NaN)).toThrow(RangeError);
    expect(() => lognormal(Infinity, 1)).toThrow(RangeError);
  });
});
