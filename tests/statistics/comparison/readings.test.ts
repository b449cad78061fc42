import { describe, expect, it } from "vitest";
import { createRandom } from "../../../kernel-lib/src/statistics/random";
import {
  equivalenceTest,
  gamesHowellComparison,
  mannWhitney,
  ratioOfMeans,
  tukeyComparison,
  welchFamily,
  welchTest,
  type TTest,
} from "../../../kernel-lib/src/statistics/comparison";

/**
 * Samples of every kind: far apart, alike, with one value far off, negative, tiny, large, of 2 to
 * 12 values.
 */
function samples(seed: number): { a: number[]; b: number[] } {
  const random = createRandom(`readings ${seed}`);
  const unit = 10 ** (random.integer(9) - 4);
  const base = random.choice([100, 100, 10, 1, 0, -20]);
  const shift = random.choice([0, 0.001, 0.5, 1, 3, 30]) * random.choice([1, -1]);
  const draw = (mean: number): number[] =>
    Array.from(
      { length: 2 + random.integer(11) },
      () => unit * (mean + random.choice([0.01, 1, 1, 5]) * random.normal()),
    );
  return { a: draw(base), b: draw(base + shift) };
}
const seeds = Array.from({ length: 400 }, (_, i) => i);

/** The signed change in percent that a sentence names, e.g. "14 % lower" as -14. */
const changesIn = (text: string): number[] =>
  [...text.matchAll(/([\d.]+) % (lower|higher)/g)].map(
    ([, size, way]) => (way === "lower" ? -1 : 1) * Number(size),
  );
/** The signed range in percent of a difference that is not significant. */
const rangeIn = (text: string): number[] =>
  [...(/CI ([−+])([\d.]+) to ([−+])([\d.]+) %/.exec(text) ?? []).slice(1)].reduce<number[]>(
    (out, part, i, all) =>
      i % 2 === 1 ? [...out, (all[i - 1] === "−" ? -1 : 1) * Number(part)] : out,
    [],
  );
/** Without the sentence that says what a test does not show. */
const claims = (text: string): string =>
  text.replace(/ This does not show that .+ (and .+ )?are equal\.$/, "");

function holds(
  reading: string,
  test: Pick<TTest, "difference" | "lower" | "upper" | "ratio" | "confidence"> & { p: number },
): void {
  expect(claims(reading)).not.toMatch(
    /NaN|undefined|null|Infinity|no difference|not different|are the same|equal/i,
  );
  const told = test.p < 1 - test.confidence;
  expect(reading.startsWith("No significant difference")).toBe(!told);
  expect(reading !== claims(reading)).toBe(!told);
  const changes = told ? changesIn(reading) : rangeIn(reading);
  if (told) {
    // One finding, its sign that of the difference, never 0 %.
    const sign = reading.match(/ (lower|higher) than that of/)![1] === "lower" ? -1 : 1;
    expect(sign).toBe(Math.sign(test.difference));
    if (changes.length > 0) {
      expect(Math.abs(changes[0]!)).toBeGreaterThan(0);
      expect(Math.abs(changes[0]! / (100 * (test.ratio! - 1)) - 1)).toBeLessThan(0.051);
      const range = reading.match(/CI ([\d.]+) (?:% )?to ([\d.]+) %/)!;
      expect(Number(range[1])).toBeLessThanOrEqual(Number(range[2]));
      // The estimate lies within its own interval, to the figures printed.
      expect(Math.abs(changes[0]!)).toBeGreaterThanOrEqual(Number(range[1]) * 0.95 - 0.5);
      expect(Math.abs(changes[0]!)).toBeLessThanOrEqual(Number(range[2]) * 1.05 + 0.5);
    }
  } else {
    // What can still be: a range that holds no change, from low to high.
    if (changes.length > 0) {
      expect(changes).toHaveLength(2);
      expect(changes[0]).toBeLessThanOrEqual(0);
      expect(changes[1]).toBeGreaterThanOrEqual(0);
    } else expect(reading).toMatch(/CI of the difference .+ to .+/);
  }
}

describe("sentences on two means, over random outcomes", () => {
  it("Welch's test alone", () => {
    let told = 0;
    for (const seed of seeds) {
      const { a, b } = samples(seed);
      const test = welchTest(a, b);
      if (test.status !== "ok") continue;
      if (test.p < 0.05) told += 1;
      holds(test.reading, test);
    }
    expect(told).toBeGreaterThan(60);
    expect(told).toBeLessThan(340);
  });

  it("a family: told by the adjusted p alone, an interval that agrees, and the number of comparisons named", () => {
    let open = 0;
    for (let family = 0; family < 80; family += 1) {
      const members = seeds.slice(5 * family, 5 * family + 5).map(samples);
      for (const test of welchFamily(members)) {
        if (test.status !== "ok") continue;
        holds(test.reading, { ...test, p: test.pAdjusted });
        expect(test.reading).toContain(`adjusted for ${test.comparisons} comparisons`);
        expect(test.pAdjusted).toBeGreaterThanOrEqual(test.p);
        if (test.p < 0.05 && test.pAdjusted >= 0.05) open += 1;
      }
    }
    // The case that matters: found alone, not found among others.
    expect(open).toBeGreaterThan(3);
  });

  it("Tukey and Games-Howell: each pair", () => {
    for (let family = 0; family < 60; family += 1) {
      const groups = Object.fromEntries(
        [0, 1].flatMap((k) => {
          const { a, b } = samples(1000 + 2 * family + k);
          return [
            [`a${k}`, a],
            [`b${k}`, b],
          ];
        }),
      );
      for (const compare of [tukeyComparison, gamesHowellComparison]) {
        const result = compare(groups);
        if (result.status !== "ok") continue;
        for (const pair of result.pairs)
          holds(pair.reading, {
            ...pair,
            confidence: 0.95,
            ratio: mean(groups[pair.second]!) / mean(groups[pair.first]!),
          });
      }
    }
  });

  it("the other two-sample methods never call a difference absent and print no NaN", () => {
    for (const seed of seeds.slice(0, 150)) {
      const { a, b } = samples(seed);
      for (const result of [
        mannWhitney(a, b),
        ratioOfMeans(a, b),
        equivalenceTest(a, b, { ratioFrom: 0.9, ratioTo: 1.1 }),
      ]) {
        expect(result.reading).not.toMatch(
          /NaN|undefined|null|Infinity|no difference|not different|are the same/i,
        );
        expect(result.reading).toMatch(/\.$/);
      }
      const same = equivalenceTest(a, b, { ratioFrom: 0.9, ratioTo: 1.1 });
      if (same.status === "ok")
        expect(same.reading.startsWith("Equivalence was not shown")).toBe(!(same.p < 0.05));
    }
  });

  it("samples that cannot be compared say what is needed", () => {
    for (const [a, b] of [
      [[], [1, 2]],
      [[1], [2]],
      [
        [1, NaN],
        [2, 3],
      ],
      [
        [4, 4],
        [4, 4],
      ],
    ] as const) {
      const [test] = welchFamily([{ a, b }]);
      expect(test).toMatchObject({ status: "cannot be estimated" });
      expect(test!.reading).toMatch(/cannot be estimated, .+; needed: .+\.$/);
    }
  });
});

function mean(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0) / values.length;
}
