import { describe, expect, it } from "vitest";
import { deviationOf, recoveredBias, type StudiedMode } from "./recovered-bias";

// Seeds fixed beforehand, none chosen. A first version took bond from single bars remote from edges
// only (fewer rows, by the
// uniform bond model) and held in 18 of these 20 for bond; P(19 or more of 20) is
// 0.736 for an exact 95 % interval (R: 1 - pbinom(18, 20, 0.95)).
const SEEDS = Array.from({ length: 20 }, (_, i) => i + 1);

describe("the comparison recovers the bias the campaign was generated with", () => {
  const all = SEEDS.map((seed) => recoveredBias(seed));

  it.each(["concrete_breakout", "concrete_edge_breakout", "bond"] as const)(
    "%s: within its interval of 95 percent in at least 19 of 20 seeds",
    (mode: StudiedMode) => {
      const found = all.map((seed) => deviationOf(seed, mode));
      const outside = found.flatMap(({ deviation, half }, i) =>
        Math.abs(deviation) <= half
          ? []
          : [`seed ${i + 1}: ${deviation.toFixed(4)} against +-${half.toFixed(4)}`],
      );
      expect(20 - outside.length, outside.join("; ")).toBeGreaterThanOrEqual(19);
      // An interval that holds everything proves nothing.
      expect(Math.max(...found.map(({ half }) => half))).toBeLessThan(0.08);
    },
  );

  it("is not off on average by more than chance", () => {
    for (const mode of ["concrete_breakout", "concrete_edge_breakout", "bond"] as const) {
      const found = all.map((seed) => deviationOf(seed, mode));
      const mean = found.reduce((sum, { deviation }) => sum + deviation, 0) / 20;
      const typical = Math.sqrt(
        found.reduce((sum, { half }) => sum + (half / 1.96) ** 2, 0) / 20 / 20,
      );
      expect(
        Math.abs(mean),
        `${mode}: ${mean} against a standard error of ${typical}`,
      ).toBeLessThan(3 * typical);
    }
  });
});
