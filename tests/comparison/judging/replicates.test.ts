import { describe, expect, it } from "vitest";
import { compare, groupRatios, type RatioGroup } from "../../../kernel-lib/src/comparison";
import { testsOfGroup } from "../../../kernel-lib/src/comparison/judging/tests-of-group";
import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import { code } from "../../../kernel-lib/src/provisions";
import { replicateRows, toleranceFactor } from "../../../kernel-lib/src/statistics";
import { table } from "../../provisions/specimens";
import { expectSaid } from "../../says";

const compared = (rows: readonly Partial<TestRowInput>[]) =>
  compare(table(...rows), code("aci318-19"), { level: "nominal", scope: "all" });
// Bond capacity of the plain bar: loads are given as ratios to it.
const CAPACITY = compared([{}]).evidence.find(({ mode }) => mode === "bond")!.capacity;
const row = (
  mean: number,
  series: string,
  more: Partial<TestRowInput> = {},
): Partial<TestRowInput> => ({ series_id: series, peak_load_kN: CAPACITY * mean, ...more });
const several = (
  mean: number,
  sd: number | null,
  series: string,
  replicates = 3,
): Partial<TestRowInput> =>
  row(mean, series, sd === null ? { replicates } : { replicates, load_sd_kN: CAPACITY * sd });
const bond = (rows: readonly Partial<TestRowInput>[]): RatioGroup =>
  groupRatios(compared(rows), ["mode"], { cells: [], distribution: "normal" }).find(
    ({ by }) => by["mode"] === "bond",
  )!;

describe("a row that is the mean of 3 tests with its SD", () => {
  const rows = [
    [1.3, 0.1],
    [1.45, 0.15],
    [1.2, 0.05],
  ] as const;
  it("stands for three tests: n, mean and SD are those of the nine single tests", () => {
    const { tests, meansWithSd, meansWithoutSd } = testsOfGroup(
      ...evidenceOf(rows.map(([mean, sd], k) => several(mean, sd, `s${k}`))),
    );
    expect([tests.length, meansWithSd, meansWithoutSd]).toEqual([9, 3, 0]);
    // SD of all specimens: sqrt([sum (m - 1) s^2 + sum m (mean_i - mean)^2]/(N - 1)), any textbook
    // of statistics.
    const expected = replicateRows(rows.map(([mean, sd]) => ({ mean, sd, replicates: 3 })));
    if (expected.status !== "ok") throw new Error(expected.reading);
    const group = bond(rows.map(([mean, sd], k) => several(mean, sd, `s${k}`)));
    expect(group.n).toBe(9);
    expect(group.series).toBe(3);
    expect(group.mean).toBeCloseTo(expected.weightedMean, 12);
    expect(group.sd).toBeCloseTo(expected.specimenSd!, 12);
    const squares = rows.reduce(
      (sum, [mean, sd]) => sum + 2 * sd ** 2 + 3 * (mean - 3.95 / 3) ** 2,
      0,
    );
    expect(group.sd).toBeCloseTo(Math.sqrt(squares / 8), 12);
    expect(group.asTested.lower).toBeCloseTo(
      3.95 / 3 -
        toleranceFactor({ n: 9, fractile: 0.05, confidence: 0.9 }) * Math.sqrt(squares / 8),
      9,
    );
  });
  it("has the bounds of any three tests with that mean and SD, as tested and in general", () => {
    const means = bond(rows.map(([mean, sd], k) => several(mean, sd, `s${k}`)));
    // a - s, a, a + s have the mean a and the SD s.
    const single = bond(
      rows.flatMap(([mean, sd], k) =>
        [mean - sd, mean, mean + sd].map((value) => row(value, `s${k}`)),
      ),
    );
    for (const side of ["lower", "fractile", "upper"] as const) {
      expect(means.asTested[side]).toBeCloseTo(single.asTested[side]!, 9);
      expect(means.inGeneral[side]).toBeCloseTo(single.inGeneral[side]!, 6);
    }
  });
  it("widens the bounds where its SD is large: 40 % against 10 %", () => {
    const of = (sd: number): RatioGroup =>
      bond([1.3, 1.4, 1.5, 1.35].map((mean, k) => several(mean, sd * mean, `s${k}`)));
    const [narrow, wide] = [of(0.1), of(0.4)];
    for (const question of ["asTested", "inGeneral"] as const) {
      expect(wide[question].lower!).toBeLessThan(narrow[question].lower! - 0.4);
      expect(wide[question].upper!).toBeLessThan(narrow[question].upper!);
    }
  });
});

describe("a row that is a mean without its SD", () => {
  const rows = [2, 2.1, 2.05, 1.95].map((mean, k) => `${mean} ${k}`);
  const of = (factor: number, sd: number | null): RatioGroup =>
    bond(
      rows
        .map((text) => text.split(" ").map(Number))
        .flatMap(([mean, k]) => [
          several(factor * mean!, sd, `s${k!}`),
          row(factor * mean!, `s${k!}`),
        ]),
    );
  it("never lets a group meet, since the scatter of single tests is not reported", () => {
    const [hidden, reported] = [of(1, null), of(1, 0.05)];
    expect([reported.asTested.verdict, reported.inGeneral.verdict]).toEqual(["meets", "meets"]);
    for (const { verdict, reason } of [hidden.asTested, hidden.inGeneral]) {
      expect(verdict).toBe("undecided");
      expectSaid(reason, /scatter .*not reported/, "4 rows", "means", "SD");
    }
  });
  it("may show that a group falls short", () => {
    const hidden = of(0.4, null);
    expect([hidden.asTested.verdict, hidden.inGeneral.verdict]).toEqual([
      "falls short",
      "falls short",
    ]);
  });
  it("counts as one value; a lower bound that is a mean is one lower bound", () => {
    const { tests, meansWithoutSd } = testsOfGroup(
      ...evidenceOf([
        several(1.2, null, "a"),
        several(1.3, 0.1, "b"),
        { ...several(1.4, 0.1, "c"), failure_mode: "stopped" },
      ]),
    );
    expect(meansWithoutSd).toBe(1);
    expect(tests.map(({ lowerBound }) => lowerBound)).toEqual([false, false, false, false, true]);
  });
});

function evidenceOf(rows: readonly Partial<TestRowInput>[]): Parameters<typeof testsOfGroup> {
  const { evidence, tests } = compared(rows);
  return [evidence.filter(({ mode }) => mode === "bond"), tests];
}
