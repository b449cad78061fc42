import { describe, expect, it } from "vitest";
import {
  censoredRegression,
  leastSquares,
  regressionByGroup,
} from "../../kernel-lib/src/regression";
import { loneCluster } from "../../kernel-lib/src/regression/lone-cluster";

const y = [0.98, 1.05, 1.01, 1.12, 1.09, 1.2, 1.15, 1.02];
const other = [0, 0, 0, 1, 1, 1, 1, 1];
const one = ["s1", "s1", "s1", "g1", "g1", "g2", "g2", "g3"];
const two = ["s1", "s1", "s2", "g1", "g1", "g2", "g2", "g3"];

describe("a cluster that fixes a coefficient alone", () => {
  it("is refused with its name by least squares and the censored fit, not given an error near 0", () => {
    const message =
      /Cluster "s1" alone determines a coefficient.*at least 2 clusters in each class/;
    expect(() =>
      leastSquares({ y, columns: { other }, standardErrors: { clusters: one } }),
    ).toThrow(message);
    expect(() =>
      censoredRegression({
        y,
        censored: y.map((_, i) => i === 4),
        columns: { other },
        distribution: "lognormal",
        clusters: one,
      }),
    ).toThrow(message);
    // One series at one of two diameters, and a line through two series.
    expect(() =>
      leastSquares({
        y,
        columns: { diameter: [16, 16, 16, 10, 10, 10, 10, 10] },
        standardErrors: { clusters: one },
      }),
    ).toThrow(/"s1"/);
    expect(() =>
      leastSquares({
        y,
        columns: { x: [1, 2, 3, 5, 6, 7, 8, 9] },
        standardErrors: { clusters: other },
      }),
    ).not.toThrow();
  });

  it("what the refusal prevents: with it left in, the variance of that class is that of rounding", () => {
    // Liang and Zeger's sum over clusters for the mean of one class of one series: its residuals
    // sum to 0.
    const residuals = [0.98, 1.05, 1.01].map((value) => value - (0.98 + 1.05 + 1.01) / 3);
    expect(Math.abs(residuals.reduce((a, b) => a + b, 0))).toBeLessThan(1e-15);
  });

  it("two clusters on each side, or columns that vary within clusters, stay", () => {
    const fit = leastSquares({ y, columns: { other }, standardErrors: { clusters: two } });
    expect(fit.coefficient("other").p).toBeGreaterThan(0);
    expect(
      loneCluster(
        [
          [0.6, 0.8, 0, 0],
          [0, 0, 0.6, 0.8],
        ],
        ["a", "b", "a", "b"],
      ),
    ).toBeNull();
    expect(
      loneCluster(
        [
          [0.6, 0.8, 0, 0],
          [0, 0, 0.6, 0.8],
        ],
        ["a", "a", "b", "b"],
      ),
    ).toBe("a");
  });

  it("leaves the other classes of regressionByGroup their lines", () => {
    const [first, second] = regressionByGroup({
      y,
      columns: { x: [1, 1, 2, 1, 2, 1, 3, 2] },
      groups: other.map(String),
      standardErrors: { clusters: ["a", "a", "b", "c", "c", "d", "d", "e"] },
    }).groups;
    expect(first).toMatchObject({ status: "cannot be estimated", code: "exact_leverage" });
    expect(second!.status).toBe("ok");
  });
});
