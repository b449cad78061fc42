import { describe, expect, it } from "vitest";
import {
  compare,
  groupRatios,
  type Comparison,
  type Evidence,
  type GroupSettings,
  type RatioGroup,
} from "../../kernel-lib/src/comparison";
import type { TestRowInput } from "../../kernel-lib/src/dataset";
import { code } from "../../kernel-lib/src/provisions";
import {
  characteristicBySeries,
  characteristicValue,
  createRandom,
  fitCensored,
  RandomEffectsModel,
} from "../../kernel-lib/src/statistics";
import { table } from "../provisions/specimens";

const random = createRandom("groups of ratios");
const rows: Partial<TestRowInput>[] = Array.from({ length: 60 }, (_, i) => ({
  cracked: "no",
  study_id: `s${i % 3}`,
  series_id: `series ${i % 6}`,
  bar_size: i % 2 === 0 ? "10" : "16",
  member_thickness_mm: 500,
  peak_load_kN: 90 * Math.exp(0.15 * random.normal()),
  failure_mode: i % 5 === 0 ? "rupture_at_grip" : "bond",
}));
const compared = (of: typeof rows): Comparison =>
  compare(table(...of), code("aci318-19"), { level: "nominal", lowerBounds: "stopped early" });
const bond = (of: typeof rows, settings: GroupSettings = {}): RatioGroup =>
  groupRatios(compared(of), ["mode"], settings).find(({ by }) => by["mode"] === "bond")!;
const numbers = (of: readonly RatioGroup[]): unknown =>
  of.map(({ n, lowerBounds, mean, lower, upper, asTested, verdict }) => [
    n,
    lowerBounds,
    mean?.toPrecision(9),
    asTested.lower?.toPrecision(6),
    lower?.toPrecision(6),
    upper?.toPrecision(6),
    verdict,
  ]);

describe("groups of ratios", () => {
  it("with lower bounds hold what the censored statistics give", () => {
    const group = bond(rows);
    expect([group.n, group.lowerBounds]).toEqual([48, 12]);
    const y = group.evidence.map(({ ratio }) => ratio);
    const censored = group.evidence.map(({ bound }) => bound);
    const fit = fitCensored({ values: y, censored, distribution: "normal" });
    if (fit.status !== "ok") throw new Error("no fit");
    expect([group.mean, group.sd, group.k]).toEqual([fit.mean, fit.sd, null]);
    const model = new RandomEffectsModel({
      y,
      censored,
      series: y.map((_, i) => i),
      pointOf: y.map(() => 0),
      points: [[1]],
      cells: 1,
      independent: true,
    });
    expect(group.asTested).toMatchObject({
      lower: model.fractile([1], { fractile: 0.05, confidence: 0.9 }).lower,
    });
    // A lower bound taken as a value would lie lower in the mean.
    expect(group.mean!).toBeGreaterThan(y.reduce((a, b) => a + b) / y.length);
  });

  it("without lower bounds hold the exact factor's value as tested", () => {
    const group = bond(rows.filter((row) => row.failure_mode === "bond"));
    const exact = characteristicValue(group.evidence.map(({ ratio }) => ratio));
    expect(exact.status === "ok" && exact.value).toBe(group.asTested.lower);
    expect(group.asTested.lower).toBeCloseTo(group.mean! - group.k! * group.sd!, 12);
  });

  it("split by a column are the groups of the parts", () => {
    const whole = groupRatios(compared(rows), ["study_id", "mode"]);
    const parts = ["s0", "s1", "s2"].flatMap((study) =>
      groupRatios(compared(rows.filter((row) => row.study_id === study)), ["study_id", "mode"]),
    );
    expect(numbers(parts)).toEqual(numbers(whole));
  });

  it("do not depend on the order of rows", () => {
    expect(
      numbers(groupRatios(compared(createRandom("turn").shuffle(rows)), ["mode", "bar_size"])),
    ).toEqual(numbers(groupRatios(compared(rows), ["mode", "bar_size"])));
  });

  it("count every specimen of a row that reports its replicates with their SD", () => {
    const mean = { ...rows[1], replicates: 3, load_sd_kN: 20 };
    const group = bond([mean, ...rows.filter((row) => row.failure_mode === "bond").slice(1)]);
    expect(group.n).toBe(3 + 47);
  });
});

const BASE = compared(rows);
const TEMPLATE: Evidence = BASE.evidence.find(({ mode }) => mode === "bond")!;

describe("verdicts, over random groups", () => {
  it("follow the bounds, name what is needed, and never show NaN", () => {
    const counts = new Map<string, number>();
    for (let seed = 0; seed < 150; seed += 1) {
      const draw = createRandom(`verdict ${seed}`);
      const size = 1 + draw.integer(25);
      const series = 1 + draw.integer(6);
      const centre = draw.choice([0.4, 1, 1.2, 1.6, 3]);
      const scatter = draw.choice([0, 0.02, 0.1, 0.4]);
      const evidence: Evidence[] = Array.from({ length: size }, (_, i): Evidence => ({
        ...TEMPLATE,
        row: i % series,
        ratio: Math.max(0.01, centre * (1 + scatter * draw.normal())),
        bound: draw.uniform() < 0.3,
      }));
      const [group] = groupRatios({ ...BASE, evidence }, ["mode"], {
        distribution: draw.choice(["normal", "lognormal"] as const),
      });
      const { n, lowerBounds, asTested, inGeneral } = group!;
      expect(n + lowerBounds).toBe(size);
      for (const { verdict, reason, lower, upper } of [asTested, inGeneral]) {
        counts.set(verdict, (counts.get(verdict) ?? 0) + 1);
        expect(reason).not.toMatch(/NaN|undefined|null|Infinity/);
        if (lower === null || upper === null) {
          expect(["too few tests", "too few series"]).toContain(verdict);
          expect(reason).toMatch(/need|scatter|equal/);
        } else if (group!.inGeneral.cells.length <= 1)
          expect(verdict).toBe(lower >= 1 ? "meets" : upper < 1 ? "falls short" : "undecided");
      }
      expect(group!.verdict).toBe(inGeneral.verdict);
    }
    expect([...counts.keys()].sort()).toEqual([
      "falls short",
      "meets",
      "too few series",
      "too few tests",
      "undecided",
    ]);
    for (const count of counts.values()) expect(count).toBeGreaterThan(10);
  });
});

describe("the two questions of a group", () => {
  // Series that differ: hardly any scatter within a series.
  const loads = [0.9, 1.0, 1.1, 1.2, 1.3, 1.35].flatMap((mean, series) =>
    [0.98, 1, 1.02].map((one) => ({
      cracked: "no" as const,
      member_thickness_mm: 500,
      failure_mode: "bond" as const,
      series_id: `series ${series}`,
      peak_load_kN: 105 * mean * one,
    })),
  );
  it("differ where series differ: in general the bound is that of characteristicBySeries", () => {
    const group = bond(loads);
    const found = characteristicBySeries({
      values: group.evidence.map(({ ratio }) => ratio),
      censored: group.evidence.map(() => false),
      clusters: group.evidence.map((_, i) => Math.floor(i / 3)),
    });
    if (found.status !== "ok") throw new Error(found.reading);
    expect(group).toMatchObject({ series: 6, n: 18 });
    expect(group.lower).toBeCloseTo(found.characteristic, 12);
    // The upper bound is given 0.8 of the stated error, so it lies a little above that at 90 %.
    expect(group.upper!).toBeGreaterThan(found.upper);
    expect(group.upper! - found.upper).toBeLessThan(0.02 * group.mean!);
    expect(group.lower!).toBeLessThan(group.asTested.lower!);
    expect(group.inGeneral.icc!).toBeGreaterThan(0.8);
  });
  it("can have two answers, never mixed", () => {
    const { lower, asTested } = bond(loads);
    const target = (lower! + asTested.lower!) / 2;
    expect(bond(loads, { target })).toMatchObject({
      verdict: "undecided",
      asTested: { verdict: "meets" },
    });
  });
  it("has no general verdict with fewer than 3 series, however many tests", () => {
    const two = bond(loads.map((row, i) => ({ ...row, series_id: `series ${i % 2}` })));
    expect(two).toMatchObject({ verdict: "too few series", lower: null, series: 2 });
    expect(two.asTested.lower).not.toBeNull();
    expect(two.reason).toContain("at least 3");
  });
  it("is one where each test is a series of its own", () => {
    const alone = bond(loads.map((row, i) => ({ ...row, series_id: `series ${i}` })));
    expect(alone.inGeneral.ofCell!.mean).toBeCloseTo(alone.mean!, 9);
    expect(alone.inGeneral.ofCell!.cov).toBeCloseTo(alone.cov!, 9);
    expect(alone.lower).toBeCloseTo(alone.asTested.lower!, 6);
  });
});
