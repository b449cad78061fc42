import { describe, expect, it } from "vitest";
import {
  characteristicFractileFactor,
  designFractileFactor,
} from "../../../kernel-lib/src/proposals/en1990-d8";

describe("tables D1 and D2", () => {
  // EN 1990:2002 as printed (from memory); the exact factor is the published formula behind Table
  // D1.
  it.each([
    [3, 3.37],
    [4, 2.63],
    [5, 2.33],
    [6, 2.18],
    [8, 2.0],
    [10, 1.92],
    [20, 1.76],
    [30, 1.73],
    [Infinity, 1.64],
  ])("D1, V_X unknown, n %s: %s, and the formula within 0.02", (n, printed) => {
    expect(characteristicFractileFactor({ n })).toBe(printed);
    expect(
      Math.abs((characteristicFractileFactor({ n, source: "exact" }) ?? NaN) - printed),
    ).toBeLessThan(0.02);
  });
  it.each([
    [4, 11.4],
    [5, 7.85],
    [6, 6.36],
    [8, 5.07],
    [10, 4.51],
    [20, 3.64],
    [30, 3.44],
  ])("D2, V_X unknown, n %s: %s, and the formula within 0.9 %%", (n, printed) => {
    expect(designFractileFactor({ n })).toBe(printed);
    expect(
      Math.abs((designFractileFactor({ n, source: "exact" }) ?? NaN) / printed - 1),
    ).toBeLessThan(0.009);
  });
  it.each([
    [1, 2.31, 4.36],
    [2, 2.01, 3.77],
    [3, 1.89, 3.56],
    [30, 1.67, 3.13],
  ])("V_X known, n %s", (n, d1, d2) => {
    expect(characteristicFractileFactor({ n, variationKnown: true })).toBe(d1);
    expect(designFractileFactor({ n, variationKnown: true })).toBe(d2);
    expect(
      Math.abs(
        (characteristicFractileFactor({ n, variationKnown: true, source: "exact" }) ?? NaN) - d1,
      ),
    ).toBeLessThan(0.03);
  });
  it("has no entry where the table prints a dash", () => {
    expect([1, 2].map((n) => characteristicFractileFactor({ n }))).toEqual([null, null]);
    expect([1, 2, 3].map((n) => designFractileFactor({ n, source: "exact" }))).toEqual([
      null,
      null,
      null,
    ]);
    expect(() => characteristicFractileFactor({ n: 2.5 })).toThrow("n is 2.5");
  });
  it("falls with n and, between printed n, is not below the formula by more than the table's rounding", () => {
    for (let n = 4; n < 200; n++) {
      const [now, next] = [
        characteristicFractileFactor({ n }) ?? NaN,
        characteristicFractileFactor({ n: n + 1 }) ?? NaN,
      ];
      expect(next).toBeLessThanOrEqual(now);
      expect(now).toBeGreaterThan(
        (characteristicFractileFactor({ n, source: "exact" }) ?? NaN) - 0.012,
      );
    }
  });
});
