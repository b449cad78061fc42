import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { leastSquares } from "../../kernel-lib/src/regression";
import { longley, noInt1, noInt2, norris, wamplers, type LinearSet } from "./nist-linear-sets";
import { correctDigits } from "./correct-digits";

function check(set: LinearSet, digits: number = set.digits): void {
  const fit = leastSquares({ y: set.y, columns: set.columns, intercept: set.intercept });
  const perfect = set.residualSd === 0;
  set.estimates.forEach((expected, j) =>
    expect(
      correctDigits(fit.coefficients[j]!.estimate, expected),
      `estimate ${j}`,
    ).toBeGreaterThanOrEqual(digits),
  );
  if (perfect) {
    // NIST certifies standard errors of 0: the fit must say that it has no scatter to judge by.
    expect(fit.warnings.join()).toContain("matches every row");
    expect(fit.coefficients.every((c) => c.t === null && c.p === null)).toBe(true);
    expect(fit.residualSd).toBeLessThan(1e-8);
  } else {
    set.standardErrors.forEach((expected, j) =>
      expect(
        correctDigits(fit.coefficients[j]!.standardError, expected),
        `standard error ${j}`,
      ).toBeGreaterThanOrEqual(Math.min(digits, 10)),
    );
    expect(correctDigits(fit.residualSd, set.residualSd)).toBeGreaterThanOrEqual(
      Math.min(digits, 10),
    );
  }
  expect(correctDigits(fit.rSquared!, set.rSquared)).toBeGreaterThanOrEqual(Math.min(digits, 9));
}

describe("linear sets of NIST StRD", () => {
  for (const set of [norris, longley, noInt1, noInt2, ...wamplers])
    it(`${set.name} to ${set.digits} digits`, () => {
      check(set);
    });

  const file = fileURLToPath(new URL("../../../shared/reference/strd.json", import.meta.url));
  const present = existsSync(file);
  if (!present)
    console.log(
      "skipped: Filip and Pontius, because the reference folder beside the project is absent",
    );
  interface Stored {
    X: string[][];
    y: string[];
    exact: { beta: string[]; se: string[]; rsd: string; r2: string };
  }
  const stored = (): Record<string, Stored> =>
    JSON.parse(readFileSync(file, "utf8")) as Record<string, Stored>;

  for (const [name, degree, digits] of [
    ["Pontius", 2, 11],
    ["Filip", 10, 7],
  ] as const) {
    it.skipIf(!present)(`${name} to ${digits} digits (reference folder)`, () => {
      const set = stored()[name]!;
      const x = set.X.map((row) => Number(row[1]));
      const columns = Object.fromEntries(
        Array.from({ length: degree }, (_, k) => [`x^${k + 1}`, x.map((v) => v ** (k + 1))]),
      );
      check({
        name,
        source: `NIST StRD ${name}`,
        y: set.y.map(Number),
        columns,
        intercept: true,
        estimates: set.exact.beta.map(Number),
        standardErrors: set.exact.se.map(Number),
        residualSd: Number(set.exact.rsd),
        rSquared: Number(set.exact.r2),
        digits,
      });
    });
  }
});
