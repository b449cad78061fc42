import { describe, expect, it } from "vitest";
import { furtherCourse } from "../../../kernel-lib/src/comparison";

describe("the further course of a test that its grip cut short", () => {
  const modes = [
    { mode: "bond", law: { median: 1.4, sdLog: 0.12 }, reached: 1.1 },
    { mode: "concrete_breakout", law: { median: 1.5, sdLog: 0.2 }, reached: 0.9 },
  ];
  it("agrees with SciPy 1.17.1: quad of f_j(t) S_k(t), brentq of the product of S_j(t)", () => {
    const found = furtherCourse(modes, 1.5);
    expect(found.probabilities[0]).toBeCloseTo(0.825598300378, 5);
    expect(found.probabilities[1]).toBeCloseTo(0.11281180579266055, 5);
    expect(found.rupture).toBeCloseTo(0.06158989382933951, 10);
    expect(found.median).toBeCloseTo(1.261428847600973, 5);
    expect(found.lower).toBeCloseTo(1.0611261551887785, 5);
    expect(found.upper).toBe(1.5);
  });
  it("adds up to one, whatever the laws", () => {
    for (const reached of [0.2, 1, 1.4, 3]) {
      const { probabilities, rupture } = furtherCourse(
        modes.map((one) => ({ ...one, reached })),
        1.3,
      );
      expect(probabilities[0]! + probabilities[1]! + rupture).toBeCloseTo(1, 12);
    }
  });
  it("ruptures at once where the bar is at its strength already, and where no mode is near", () => {
    expect(furtherCourse(modes, 1)).toEqual({
      probabilities: [0, 0],
      rupture: 1,
      median: 1,
      lower: 1,
      upper: 1,
    });
    expect(
      furtherCourse(
        modes.map((one) => ({ ...one, reached: 0.1 })),
        1.4,
      ),
    ).toMatchObject({ median: 1.4, upper: 1.4 });
  });
});
