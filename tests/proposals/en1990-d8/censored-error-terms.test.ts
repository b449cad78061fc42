import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import {
  calibrateEn1990,
  censoredErrorTermsOf,
  errorTermsOf,
  variationOfProduct,
  type Calibration,
  type ErrorTerms,
} from "../../../kernel-lib/src/proposals/en1990-d8";
import { createRandom } from "../../../kernel-lib/src/statistics";
import { expectSaid } from "../../says";

const experimental = [52.1, 61.7, 40.3, 75.2, 88.9, 33.8, 47.5, 69.4, 58.0, 81.3, 44.4, 95.1];
const theoretical = [50.0, 55.2, 43.1, 70.8, 80.4, 35.5, 41.9, 71.2, 60.3, 74.6, 46.0, 84.7];
const lowerBounds = Array.from({ length: 12 }, (_, k) => [1, 4, 8, 11].includes(k));
const budget = variationOfProduct([{ name: "f_c", cov: 0.1, exponent: 0.5 }]);

// What Rscript recomputed/en1990-d8-censored.R prints (survreg of the survival package).
const R = { sdLog: 0.0948827527191804, b: 1.09252637602324, Vdelta: 0.0950967049022213 };

const termsOf = (marks: readonly boolean[]): ErrorTerms => {
  const terms = censoredErrorTermsOf(experimental, theoretical, marks);
  if (typeof terms === "string") throw new Error(terms);
  return terms;
};

describe("censoredErrorTermsOf", () => {
  it("agrees with R's survreg", () => {
    const terms = termsOf(lowerBounds);
    // survreg stops at a relative change of 1e-14 of the likelihood, that is some 1e-7 of its
    // parameters.
    expect(Math.abs(terms.b / R.b - 1)).toBeLessThan(1e-8);
    expect(Math.abs(terms.sdLog / R.sdLog - 1)).toBeLessThan(1e-7);
    expect(Math.abs(terms.cov / R.Vdelta - 1)).toBeLessThan(1e-7);
    expect(terms.delta).toHaveLength(8);
  });
  it("the values above are what R prints now", ({ skip }) => {
    let printed = "";
    try {
      if (existsSync("/usr/bin/Rscript"))
        printed = execFileSync(
          "/usr/bin/Rscript",
          [fileURLToPath(new URL("../recomputed/en1990-d8-censored.R", import.meta.url))],
          { stdio: ["ignore", "pipe", "ignore"] },
        ).toString();
    } catch {
      // R without its survival package: told below.
    }
    if (printed === "") {
      console.log("R with its survival package is not here: the censored fit was not recomputed");
      skip();
    }
    const now: Record<string, number> = Object.fromEntries(
      printed
        .trim()
        .split("\n")
        .map((line) => line.split(" "))
        .map(([name = "", value]) => [name, Number(value)] as const),
    );
    for (const [name, value] of Object.entries(R))
      expect(Math.abs((now[name] ?? NaN) / value - 1), name).toBeLessThan(1e-10);
  });
  it("without lower bounds is the annex, bias and scatter", () => {
    const [own, annex] = [
      termsOf(new Array<boolean>(12).fill(false)),
      errorTermsOf(experimental, theoretical),
    ];
    expect(own.sdLog).toBeCloseTo(annex.sdLog, 10);
    expect(own.cov).toBeCloseTo(annex.cov, 10);
    expect(own.b).toBeCloseTo(annex.b, 12);
    expect(own.delta).toHaveLength(12);
  });
  it("gives a reason where nothing failed, and names wrong values", () => {
    expect(censoredErrorTermsOf([1, 2, 3], [1, 2, 3], [true, true, true])).toContain(
      "lower bounds",
    );
    expect(() => censoredErrorTermsOf([1, -2, 3], [1, 1, 1], [true, true, true])).toThrow(
      "test 2 has r_e -2",
    );
  });
});

describe("calibrateEn1990 with lower bounds", () => {
  it("says how each way treats them, and leaves them out unless told otherwise", () => {
    const input = { experimental, theoretical, budget, lowerBounds };
    const [out, used] = [
      calibrateEn1990(input),
      calibrateEn1990({ ...input, treatmentOfLowerBounds: "used by likelihood" }),
    ];
    expect(out).toMatchObject({ n: 8, lowerBounds: 4, method: "least squares" });
    expectSaid(out.warnings[0], "4 tests", /lower bounds?/, "left out");
    expect(used).toMatchObject({ n: 8, lowerBounds: 4, method: "censored maximum likelihood" });
    expect(used.terms?.b).toBe(termsOf(lowerBounds).b);
    expectSaid(used.assumptions.join(), /\bnot in EN 1990/);
    expectSaid(used.reading, "8 tests", "4 lower bounds");
    expect(used.trace[0]?.formula).toContain("maximum likelihood");
    // All strengths that broke elsewhere were higher than what was seen of them.
    expect(used.terms?.b).toBeGreaterThan(out.terms?.b ?? NaN);
    expect(
      calibrateEn1990({
        experimental,
        theoretical,
        budget,
        treatmentOfLowerBounds: "used by likelihood",
      }),
    ).toEqual(calibrateEn1990({ experimental, theoretical, budget }));
  });
  it("says that the reading of k_c is to be checked", () => {
    const found = calibrateEn1990({ experimental, theoretical, budget });
    expectSaid(found.assumptions.join(), "k_c", /from memory.*checked.*licensed copy/);
    expectSaid(
      found.trace.find(({ symbol }) => symbol === "r_n / r_d")?.clause,
      /checked.*licensed copy/,
    );
  });
  it("recovers the stated bias and scatter, while leaving the bounds out sets the design value on the unsafe side", () => {
    const random = createRandom("bars that broke first");
    const [b, s] = [1.2, 0.2];
    const model = Array.from({ length: 3000 }, () => 20 + 60 * random.uniform());
    const strength = model.map((value) => value * b * Math.exp(s * random.normal() - (s * s) / 2));
    // The bar breaks at a load that knows nothing of the bond: about one test in six is a lower
    // bound.
    const rupture = model.map((value) => value * 1.45 * Math.exp(0.05 * random.normal()));
    const input = {
      experimental: strength.map((value, i) => Math.min(value, rupture[i]!)),
      theoretical: model,
      budget: variationOfProduct([]),
      lowerBounds: strength.map((value, i) => value > rupture[i]!),
    };
    const design = (found: Calibration): number => found.resistances?.design ?? NaN;
    const [out, used, whole] = [
      calibrateEn1990(input),
      calibrateEn1990({ ...input, treatmentOfLowerBounds: "used by likelihood" }),
      calibrateEn1990({ experimental: strength, theoretical: model, budget: input.budget }),
    ];
    const truth = b * Math.exp(-3.04 * s - (s * s) / 2);
    expect(used.lowerBounds / 3000).toBeGreaterThan(0.1);
    // Four standard errors of a mean of 3000.
    expect(Math.abs((used.terms?.b ?? NaN) / b - 1)).toBeLessThan((4 * s) / Math.sqrt(3000));
    expect(Math.abs((used.terms?.sdLog ?? NaN) / s - 1)).toBeLessThan(0.05);
    expect(Math.abs(design(used) / truth - 1)).toBeLessThan(0.03);
    expect(Math.abs(design(whole) / truth - 1)).toBeLessThan(0.03);
    expect(design(out) / truth).toBeGreaterThan(1.05);
    expect(out.terms?.b).toBeLessThan(b);
  });
});
