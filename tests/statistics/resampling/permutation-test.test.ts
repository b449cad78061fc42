import { describe, expect, it } from "vitest";
import { permutationTest } from "../../../kernel-lib/src/statistics/resampling";

const x = [92.1, 101.4, 88.3, 110.2, 95.7, 99.9, 104.5, 87.2, 120.3, 93.8, 98.6, 107.7];
const groups = x.map((_, i) => (i % 2 === 0 ? "A" : "B"));

describe("permutationTest", () => {
  it("exact p over all combinations: R combn(12, 6) with the difference of means", () => {
    // mean(abs(dd) >= abs(d0) - 1e-10), mean(dd >= d0 - 1e-10) over the 924 arrangements
    const two = permutationTest({ values: x, groups, seed: 1 });
    expect(two.exact).toBe(true);
    expect(two.arrangements).toBe(924);
    expect(two.observed).toBeCloseTo(-0.116666666666674, 10);
    expect(two.p).toBeCloseTo(0.989177489177489, 12);
    expect(permutationTest({ values: x, groups, seed: 1, alternative: "greater" }).p).toBeCloseTo(
      0.508658008658009,
      12,
    );
    expect(two.reading).toContain("does not show that they are the same");
  });
  it("random arrangements come near the exact p, and repeat with the seed", () => {
    const shifted = x.map((v, i) => v + (groups[i] === "A" ? 8 : 0));
    const exact = permutationTest({ values: shifted, groups, seed: 1 });
    const random = permutationTest({ values: shifted, groups, seed: 1, permutations: 800 });
    expect(random.exact).toBe(false);
    expect(Math.abs(random.p - exact.p)).toBeLessThan(
      4 * Math.sqrt((exact.p * (1 - exact.p)) / 800),
    );
    expect(permutationTest({ values: shifted, groups, seed: 1, permutations: 800 }).p).toBe(
      random.p,
    );
  });
  it("blocks: labels move only within a block", () => {
    // Every block has both labels on equal values: no arrangement within blocks can change the
    // difference of 0.
    const r = permutationTest({
      values: [1, 1, 50, 50, 9, 9],
      groups: ["A", "B", "A", "B", "A", "B"],
      blocks: ["p", "p", "q", "q", "r", "r"],
      seed: 2,
      permutations: 199,
    });
    expect(r.p).toBe(1);
  });
  it("separated groups give the least p there is, and few arrangements are warned of", () => {
    const r = permutationTest({
      values: [1, 2, 3, 11, 12, 13],
      groups: ["A", "A", "A", "B", "B", "B"],
      seed: 1,
    });
    expect(r.p).toBeCloseTo(2 / 20, 12);
    expect(
      permutationTest({
        values: [1, 2, 3, 9],
        groups: ["A", "A", "B", "B"],
        seed: 1,
      }).warnings.join(),
    ).toContain("Only 6 arrangements");
  });
  it("bad input", () => {
    expect(() => permutationTest({ values: [1, 2], groups: ["A", "A"], seed: 1 })).toThrow(
      "got 1 groups",
    );
    expect(() => permutationTest({ values: [1, 2], groups: ["A"], seed: 1 })).toThrow("expected 2");
    expect(
      permutationTest({ values: [1, NaN, 3, 4], groups: ["A", "A", "B", ""], seed: 1 }).excluded
        .length,
    ).toBe(2);
  });
});
