import { describe, expect, it } from "vitest";
import { recoverTruth, type Recoverable, type Recovered } from "./recovered-truth";

const SEEDS = Array.from({ length: 20 }, (_, i) => i + 1);

describe("the truth can be recovered from the rows alone", () => {
  const all = SEEDS.map((seed) => recoverTruth(seed));
  const covered = ({ truth, low, high }: Recovered): boolean => low <= truth && truth <= high;

  // The interval of a mode is its factor averaged over the four kinds of bar, so that one seed
  // gives one answer a mode.
  it.each(["concrete_breakout", "bond", "cast_in_bond", "edge_breakout"] as const)(
    "%s: the mean factor lies in its interval in at least 19 of 20 seeds",
    (mode: Recoverable) => {
      let hits = 0;
      for (const seed of all) {
        const kinds = seed.filter((r) => r.mode === mode);
        const deviation =
          kinds.reduce((a, r) => a + Math.log(r.estimate / r.truth), 0) / kinds.length;
        const half =
          Math.sqrt(kinds.reduce((a, r) => a + Math.log(r.high / r.low) ** 2 / 4, 0)) /
          kinds.length;
        if (Math.abs(deviation) <= half) hits += 1;
      }
      expect(hits).toBeGreaterThanOrEqual(19);
    },
  );

  it("each kind and mode lies in its interval about 95 % of the time, and the intervals are of use", () => {
    const every = all.flat();
    const hits = every.filter(covered).length;
    // Binomial(320, 0.95): fewer than 291 hits happen with a probability below 0.1 % (R:
    // qbinom(0.001, 320, 0.95) = 291).
    expect(hits).toBeGreaterThanOrEqual(291);
    const halves = every.map(({ low, high }) => Math.log(high / low) / 2).sort((a, b) => a - b);
    expect(halves[Math.floor(halves.length / 2)]).toBeLessThan(0.08);
  });
});
