import { describe, expect, it } from "vitest";
import {
  generalisedEsd,
  grubbsCritical,
  grubbsTest,
} from "../../../kernel-lib/src/statistics/outliers";

describe("Grubbs", () => {
  it("has the critical values of the published tables (Grubbs and Beck 1972; computed by R qt)", () => {
    const table = [
      [3, 1.1531, 1.1546, 1.1543, 1.1547],
      [6, 1.8221, 1.9442, 1.8871, 1.9728],
      [10, 2.1761, 2.4097, 2.29, 2.4821],
      [30, 2.7451, 3.1029, 2.9085, 3.2361],
      [100, 3.2095, 3.6002, 3.3841, 3.754],
    ] as const;
    for (const [n, one5, one1, two5, two1] of table) {
      expect(grubbsCritical(n, 0.05, "least")).toBeCloseTo(one5, 3.9);
      expect(grubbsCritical(n, 0.01, "largest")).toBeCloseTo(one1, 3.9);
      expect(grubbsCritical(n, 0.05, "either")).toBeCloseTo(two5, 3.9);
      expect(grubbsCritical(n, 0.01, "either")).toBeCloseTo(two1, 3.9);
    }
  });
  it("flags without removing, on the side asked for", () => {
    const values = [NaN, 42, 45, 44, 43, 44.5, 43.5, 20];
    const test = grubbsTest(values);
    expect(test).toMatchObject({ flagged: true, suspect: 20, index: 7, n: 7 });
    expect(test.status === "ok" && test.p).toBeLessThan(0.01);
    expect(test.reading).toContain("not removed");
    expect(grubbsTest(values, { side: "largest" })).toMatchObject({ flagged: false, suspect: 45 });
    expect(grubbsTest([1, 2])).toMatchObject({ reason: "too few values" });
    expect(grubbsTest([1, 1, 1])).toMatchObject({ reason: "no spread" });
  });
  it("has p at the level exactly at the critical value (NIST/SEMATECH e-handbook 1.3.5.17.1: G 2.469, critical 2.032 one-sided)", () => {
    // Tietjen and Moore's uranium data as the handbook prints it.
    const test = grubbsTest([199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57], {
      side: "largest",
    });
    if (test.status !== "ok") throw new Error(test.reading);
    expect(test.g.toFixed(3)).toBe("2.469");
    expect(test.critical.toFixed(3)).toBe("2.032");
  });
});

describe("generalised ESD", () => {
  it("finds Rosner's three outliers (NIST/SEMATECH e-handbook 1.3.5.17.3, from memory: R 3.118, 2.942, 3.179; critical 3.158, 3.151, 3.143)", () => {
    const rosner = [
      -0.25, 0.68, 0.94, 1.15, 1.2, 1.26, 1.26, 1.34, 1.38, 1.43, 1.49, 1.49, 1.55, 1.56, 1.58,
      1.65, 1.69, 1.7, 1.76, 1.77, 1.81, 1.91, 1.94, 1.96, 1.99, 2.06, 2.09, 2.1, 2.14, 2.15, 2.23,
      2.24, 2.26, 2.35, 2.37, 2.4, 2.47, 2.54, 2.62, 2.64, 2.9, 2.92, 2.92, 2.93, 3.21, 3.26, 3.3,
      3.59, 3.68, 4.3, 4.64, 5.34, 5.42, 6.01,
    ];
    const test = generalisedEsd(rosner, { most: 10 });
    if (test.status !== "ok") throw new Error(test.reading);
    expect(test.steps.slice(0, 3).map((step) => step.r.toFixed(3))).toEqual([
      "3.119",
      "2.943",
      "3.179",
    ]);
    expect(test.steps.slice(0, 3).map((step) => step.critical.toFixed(2))).toEqual([
      "3.16",
      "3.15",
      "3.14",
    ]);
    expect(test.flagged.map((step) => step.suspect)).toEqual([6.01, 5.42, 5.34]);
    expect(test.reading).toContain("no value is removed");
    expect(generalisedEsd([1, 2, 3], { most: 1 })).toMatchObject({ reason: "too few values" });
  });
});
