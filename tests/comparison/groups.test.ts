import { describe, expect, it } from "vitest";
import { compare, groupRatios, type Comparison, type Evidence } from "../../kernel-lib/src/comparison";
import type { TestRowInput } from "../../kernel-lib/src/dataset";
import { code } from "../../kernel-lib/src/provisions";
import { characteristicBySeries, characteristicCensored, characteristicValue, createRandom, fitCensored } from "../../kernel-lib/src/statistics";
import { table } from "../provisions/specimens";

const random = createRandom("groups of ratios");
const rows: Partial<TestRowInput>[] = Array.from({ length: 60 }, (_, i) => ({
  bar_diameter_mm: 16, embedment_mm: 100, cracked: "no", study_id: `s${i % 3}`, bar_size: i % 2 === 0 ? "10" : "16",
  peak_load_kN: 50 * Math.exp(0.15 * random.normal()), failure_mode: i % 5 === 0 ? "rupture_at_grip" : "bond",
}));
const bondModel = code("uniform-bond-1998");
const settings = { level: "expected", options: { mean_bond_stress: 10 } } as const;
const compared = (of: typeof rows): Comparison => compare(table(...of), bondModel, settings);
const numbers = (of: readonly { n: number; nCensored: number; mean: number | null; characteristic: number | null; verdict: string }[]): unknown =>
  of.map(({ n, nCensored, mean, verdict, characteristic }) => [n, nCensored, mean?.toPrecision(9), characteristic?.toPrecision(6), verdict]);

describe("groups of ratios", () => {
  it("with lower bounds hold what the censored statistics give", () => {
    const group = groupRatios(compared(rows), ["mode"]).find(({ by }) => by["mode"] === "bond")!;
    expect([group.n, group.nCensored]).toEqual([48, 12]);
    const sample = { values: group.evidence.map(({ ratio }) => ratio), censored: group.evidence.map(({ bound }) => bound), distribution: "normal" as const };
    const fit = fitCensored(sample);
    const bound = characteristicCensored({ ...sample, seed: "ratio group" });
    if (fit.status !== "ok" || bound.status !== "ok") throw new Error("no fit");
    expect(group.mean).toBe(fit.mean);
    expect(group.sd).toBe(fit.sd);
    expect(group.characteristic).toBe(bound.characteristic);
    expect(group.k).toBeNull();
    // A bound taken as a value would lie lower in the mean.
    const taken = sample.values.reduce((a, b) => a + b) / sample.values.length;
    expect(group.mean!).toBeGreaterThan(taken);
  });

  it("without lower bounds hold the exact factor's value", () => {
    const group = groupRatios(compared(rows.filter((row) => row.failure_mode === "bond")), ["mode"]).find(({ by }) => by["mode"] === "bond")!;
    const exact = characteristicValue(group.evidence.map(({ ratio }) => ratio));
    expect(exact.status === "ok" && exact.value).toBe(group.characteristic);
  });

  it("split by a column are the groups of the parts", () => {
    const whole = groupRatios(compared(rows), ["study_id", "mode"]);
    const parts = ["s0", "s1", "s2"].flatMap((study) => groupRatios(compared(rows.filter((row) => row.study_id === study)), ["study_id", "mode"]));
    expect(numbers(parts)).toEqual(numbers(whole));
  });

  it("do not depend on the order of rows where none is a bound", () => {
    const failures = rows.filter((row) => row.failure_mode === "bond");
    expect(numbers(groupRatios(compared(createRandom("turn").shuffle(failures)), ["mode", "bar_size"]))).toEqual(numbers(groupRatios(compared(failures), ["mode", "bar_size"])));
  });
});

describe("verdict words, over random groups", () => {
  it("follow the numbers, name what is needed, and never show NaN", () => {
    const counts = new Map<string, number>();
    for (let seed = 0; seed < 300; seed += 1) {
      const draw = createRandom(`verdict ${seed}`);
      const size = draw.integer(12);
      const centre = draw.choice([0.4, 1, 1.2, 1.6, 3]);
      const scatter = draw.choice([0, 0.02, 0.1, 0.4]);
      const evidence: Evidence[] = Array.from({ length: size }, (_, i): Evidence => ({ ...TEMPLATE, row: i, ratio: Math.max(0.01, centre * (1 + scatter * draw.normal())), bound: draw.uniform() < 0.3 }));
      if (size === 0) continue;
      const comparison: Comparison = { ...BASE, evidence };
      const [group] = groupRatios(comparison, ["mode"], { distribution: draw.choice(["normal", "lognormal"] as const) });
      const { verdict, reason, characteristic, n, nCensored } = group!;
      counts.set(verdict, (counts.get(verdict) ?? 0) + 1);
      expect(reason).not.toMatch(/NaN|undefined|null|Infinity/);
      expect(n + nCensored).toBe(size);
      if (characteristic === null) {
        expect(verdict).toBe("too few tests");
        expect(reason).toMatch(/^no characteristic value: .*need/);
      } else {
        expect(Number.isFinite(characteristic)).toBe(true);
        expect(verdict).toBe(characteristic >= 1 ? "meets" : "falls short");
        const printed = Number(reason.match(/characteristic ratio (\S+)/)![1]);
        expect(printed >= 1).toBe(verdict === "meets");
        expect(reason).toContain(verdict === "meets" ? "is not below 1" : "is below 1");
      }
      expect(reason.includes("lower bounds")).toBe(nCensored > 0);
    }
    expect([...counts.keys()].sort()).toEqual(["falls short", "meets", "too few tests"]);
    for (const count of counts.values()) expect(count).toBeGreaterThan(20);
  });
});

const BASE = compared(rows);
const TEMPLATE: Evidence = BASE.evidence.find(({ mode }) => mode === "bond")!;

describe("what a verdict rests on", () => {
  // Series that differ: means of 0.9 to 1.3 on a model of 10 MPa, hardly any scatter within a series.
  const loads = [0.9, 1.0, 1.1, 1.2, 1.3, 1.35].flatMap((mean, series) => [0.98, 1, 1.02].map((one) => ({ bar_diameter_mm: 16, embedment_mm: 100, cracked: "no" as const, failure_mode: "bond" as const, series_id: `series ${series}`, peak_load_kN: 75 * mean * one })));
  const bond = (of: typeof rows, more = {}) => groupRatios(compared(of), ["mode"], more).find(({ by }) => by["mode"] === "bond")!;
  it("is the count by series, with the number by tests beside it", () => {
    const group = bond(loads);
    const counted = characteristicBySeries({ values: group.evidence.map(({ ratio }) => ratio), censored: group.evidence.map(() => false), clusters: group.evidence.map((_, i) => Math.floor(i / 3)) });
    if (counted.status !== "ok") throw new Error(counted.reading);
    expect(group).toMatchObject({ basis: "series", series: 6, seriesFailed: 6, n: 18 });
    expect(group.characteristic).toBeCloseTo(counted.characteristic, 12);
    expect(group.characteristicOfTests).toBeCloseTo(group.mean! - group.k! * group.sd!, 12);
    expect(group.characteristic!).toBeLessThan(group.characteristicOfTests!);
    expect(group.bySeries!.correlation).toBeGreaterThan(0.8);
    expect(group.reason).toMatch(/counted by 6 series\) is .*; [0-9.]+ with tests taken as independent/);
  });
  it("can turn the verdict round, which the reason shows", () => {
    // Between the two numbers lies a target that one meets and the other does not.
    const { characteristic, characteristicOfTests } = bond(loads);
    const target = (characteristic! + characteristicOfTests!) / 2;
    expect(bond(loads, { target }).verdict).toBe("falls short");
    expect(bond(loads, { target, basis: "tests" })).toMatchObject({ verdict: "meets", basis: "tests", bySeries: null, characteristic: characteristicOfTests });
  });
  it("is the tests taken as independent with fewer than 3 series, and says so", () => {
    const two = bond(loads.map((row, i) => ({ ...row, series_id: `series ${i % 2}` })));
    expect(two).toMatchObject({ basis: "tests", bySeries: null, series: 2 });
    expect(two.characteristic).toBe(two.characteristicOfTests);
    expect(two.reason).toContain("tests taken as independent: only 2 series failed in the mode");
  });
  it("has the mean and scatter of the tests where each is a series of its own", () => {
    const alone = bond(loads.map((row, i) => ({ ...row, series_id: `series ${i}` })));
    expect(alone.bySeries!.mean).toBeCloseTo(alone.mean!, 9);
    expect(alone.bySeries!.cov).toBeCloseTo(alone.cov!, 9);
    expect(alone.characteristic).toBeCloseTo(alone.characteristicOfTests!, 7);
  });
});
