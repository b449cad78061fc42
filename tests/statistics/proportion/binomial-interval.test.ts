import { describe, expect, it } from "vitest";
import { binomialInterval } from "../../../kernel-lib/src/statistics";

const ends = (events: number, tests: number, confidence: number): number[] => {
  const found = binomialInterval({ events, tests, confidence });
  if (found.status !== "ok") throw new Error(found.reading);
  return [found.lower, found.upper];
};

describe("exact binomial interval", () => {
  // SciPy 1.17.1: binomtest(x, n).proportion_ci(c, method="exact")
  it.each([
    [0, 37, 0.95, 0, 0.09489058741498986],
    [3, 20, 0.95, 0.03207093718554477, 0.37892682654529564],
    [30, 307, 0.95, 0.06690635798937727, 0.13655799197339302],
    [4, 217, 0.95, 0.0050446953931216724, 0.04652119795992254],
    [20, 20, 0.95, 0.8315665290169145, 1],
    [3, 20, 0.9, 0.042169407885778595, 0.34366380431470434],
    [1, 1, 0.95, 0.025, 1],
  ])("%d of %d at %d against SciPy", (events, tests, confidence, lower, upper) => {
    const [low, high] = ends(events, tests, confidence);
    expect(low).toBeCloseTo(lower, 11);
    expect(high).toBeCloseTo(upper, 11);
  });
  it("is symmetric in events and their absence", () => {
    const [low, high] = ends(4, 31, 0.9);
    const [otherLow, otherHigh] = ends(27, 31, 0.9);
    expect(low).toBeCloseTo(1 - otherHigh!, 12);
    expect(high).toBeCloseTo(1 - otherLow!, 12);
  });
  it("says what it cannot answer and refuses what is no count", () => {
    expect(binomialInterval({ events: 0, tests: 0 }).status).toBe("cannot be estimated");
    expect(() => binomialInterval({ events: 3, tests: 2 })).toThrow("3 events in 2 tests");
    expect(() => binomialInterval({ events: 1, tests: 2, confidence: 1 })).toThrow(
      "confidence is 1",
    );
  });
});
