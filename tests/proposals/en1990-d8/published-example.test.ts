import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  characteristicFractileFactor,
  designFractileFactor,
  resistancesOf,
  variationOfProduct,
} from "../../../kernel-lib/src/proposals/en1990-d8";
import { toleranceFactor } from "../../../kernel-lib/src/statistics";

interface PublishedSet {
  readonly name: string;
  readonly n: number;
  readonly kdn: number;
  readonly b: number;
  readonly errorCov: number;
  readonly totalCov: number;
  readonly partialFactor: number;
}
interface Published {
  readonly overstrength: number;
  readonly materialCov: number;
  readonly geometryCov: number;
  readonly sets: readonly PublishedSet[];
  readonly fewTests: Readonly<Record<"n" | "mean" | "sd" | "coverage75" | "prediction", number>>;
}
const published = JSON.parse(
  readFileSync(`${import.meta.dirname}/published-example.json`, "utf8"),
) as Published;
const { sets, overstrength, materialCov, geometryCov, fewTests } = published;
const modelCov = variationOfProduct([
  { name: "f_y", cov: materialCov },
  { name: "geometry", cov: geometryCov },
]).cov;

/**
 * V_r, k_d,n and r_n / r_d of a set, with b and V_delta moved by so much: they are printed to three
 * decimals.
 */
function found({ n, b, errorCov }: PublishedSet, moved = 0) {
  const { totalCov, kdn, design } = resistancesOf({
    n,
    b: b - moved,
    meanResistance: 1,
    errorCov: errorCov + moved,
    modelCov,
    source: "exact",
  });
  return { totalCov, kdn, factor: 1 / overstrength / (design ?? NaN) };
}
/** Whether the printed number, rounded by half a unit, lies between both ends. */
function expectBetween(printed: number, half: number, low: number, high: number): void {
  expect(printed).toBeGreaterThanOrEqual(low - half);
  expect(printed).toBeLessThanOrEqual(high + half);
}
const HALF = 0.0005;

// Published: the thesis named in published-example.json. It gives b and V_delta, not the tests
// behind them.
describe("EN 1990 Annex D.8 against a published calibration of stainless steel sections", () => {
  it.each(sets)("$name: k_d,n is the exact factor, printed to three decimals", ({ n, kdn }) => {
    expect(
      Math.abs((designFractileFactor({ n, source: "exact" }) ?? NaN) - kdn),
    ).toBeLessThanOrEqual(HALF);
  });
  it.each(sets)("$name: V_r", (set) => {
    expectBetween(set.totalCov, HALF, found(set, -HALF).totalCov, found(set, HALF).totalCov);
  });
  it.each(sets.filter(({ n }) => n <= 100))("$name: partial factor r_n / r_d", (set) => {
    expect(found(set).factor.toFixed(2)).toBe(set.partialFactor.toFixed(2));
    expectBetween(set.partialFactor, 0.005, found(set, -HALF).factor, found(set, HALF).factor);
  });
  it("112 simulations: the annex uses k_d,infinity on the whole above 100 tests, the thesis k_d,n: a little less", () => {
    const set = sets.find(({ n }) => n > 100)!;
    expect(found(set).factor).toBeLessThan(set.partialFactor);
    expect(found(set).factor).toBeGreaterThan(set.partialFactor - 0.02);
    const { n, b, errorCov } = set;
    const { q, qModel, qError } = resistancesOf({ n, b, meanResistance: 1, errorCov, modelCov });
    const exponent = -(3.04 * qModel ** 2 + set.kdn * qError ** 2) / q - 0.5 * q * q;
    expect((1 / overstrength / (b * Math.exp(exponent))).toFixed(2)).toBe(
      set.partialFactor.toFixed(2),
    );
  });
});

// Implementation of Eurocodes, Handbook 2 (2005), from memory: five concrete strengths, D.7 with
// V_X unknown.
describe("EN 1990 Annex D.7 against the handbook's five concrete strengths", () => {
  const { n, mean, sd, coverage75, prediction } = fewTests;
  it("prediction method, printed Table D1 and exact factor", () => {
    for (const source of ["table", "exact"] as const) {
      expect((mean - (characteristicFractileFactor({ n, source }) ?? NaN) * sd).toFixed(1)).toBe(
        prediction.toFixed(1),
      );
    }
  });
  it("coverage method at 75 % confidence", () => {
    expect((mean - toleranceFactor({ n, fractile: 0.05, confidence: 0.75 }) * sd).toFixed(1)).toBe(
      coverage75.toFixed(1),
    );
  });
});
