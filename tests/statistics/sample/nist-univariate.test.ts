import { describe, expect, it } from "vitest";
import { mean, standardDeviation, summarize } from "../../../kernel-lib/src/statistics/sample";
import { correctDigits } from "../../regression/correct-digits";

/*
 * NIST StRD univariate sets (itl.nist.gov/div898/strd/univ): certified mean and standard deviation.
 */

/**
 * Speed of light in air, km/s less 299000 (Michelson 1879): NIST's Michelso, also R's
 * datasets::morley$Speed.
 */
const michelson = [
  850, 740, 900, 1070, 930, 850, 950, 980, 980, 880, 1000, 980, 930, 650, 760, 810, 1000, 1000, 960,
  960, 960, 940, 960, 940, 880, 800, 850, 880, 900, 840, 830, 790, 810, 880, 880, 830, 800, 790,
  760, 800, 880, 880, 880, 860, 720, 720, 620, 860, 970, 950, 880, 910, 850, 870, 840, 840, 850,
  840, 840, 840, 890, 810, 810, 820, 800, 770, 760, 740, 750, 760, 910, 920, 890, 860, 880, 720,
  840, 850, 850, 780, 890, 840, 780, 810, 760, 810, 790, 810, 820, 850, 870, 870, 810, 740, 810,
  940, 950, 800, 810, 870,
].map((speed) => (speed + 299_000) / 1000);

/**
 * NumAcc2 to 4 follow a rule: one centre, then centre - 0.1 and centre + 0.1 five hundred times.
 */
const alternating = (offset: string): number[] =>
  [2, ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? 1 : 3))].map((tenths) =>
    Number(`${offset}.${tenths}`),
  );

describe("univariate sets of NIST StRD", () => {
  for (const [name, values, centre, sd, digits] of [
    ["Michelso", michelson, 299.8524, 0.0790105478190518, 13],
    ["NumAcc1", [10_000_001, 10_000_003, 10_000_002], 10_000_002, 1, 15],
    ["NumAcc2", alternating("1"), 1.2, 0.1, 14],
    // The data are decimals that no double holds: rounding them costs these digits before any
    // arithmetic.
    ["NumAcc3", alternating("1000000"), 1_000_000.2, 0.1, 9],
    ["NumAcc4", alternating("10000000"), 10_000_000.2, 0.1, 8],
  ] as const) {
    it(`${name}: mean to 15 digits, standard deviation to ${digits}`, () => {
      expect(correctDigits(mean(values), centre)).toBeGreaterThanOrEqual(15);
      expect(correctDigits(standardDeviation(values), sd)).toBeGreaterThanOrEqual(digits);
      const summary = summarize(values);
      expect([summary.n, summary.mean, summary.sd]).toEqual([
        values.length,
        mean(values),
        standardDeviation(values),
      ]);
    });
  }
});
