import { describe, expect, it } from "vitest";
import {
  generatedRowFindings,
  powersOfColumn,
  sameTestFindings,
  sameTestTwice,
  TestTable,
  type TestRowInput,
} from "../../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../../kernel-lib/src/demonstration";
import { createRandom } from "../../../kernel-lib/src/statistics";

const demo = generateDemonstration(2026).tests;
const row = (k: number, more: Partial<TestRowInput> = {}): TestRowInput => ({
  test_id: `t${String(k)}`,
  study_id: "first",
  series_id: "a",
  bar_material: "gfrp",
  bar_diameter_mm: 12.7,
  installation: "cast_in",
  concrete_strength_MPa: 41.27,
  concrete_strength_basis: "cylinder",
  embedment_mm: 63.5,
  setup: "pullout_block",
  action: "tension",
  peak_load_kN: 31.42,
  failure_mode: "bond",
  ...more,
});

describe("the same test in two studies", () => {
  it("is found where the second prints it with fewer digits, and each test once", () => {
    const first = [row(1), row(2, { peak_load_kN: 35.88 })];
    const second = [
      row(3, {
        study_id: "second",
        bar_diameter_mm: 12.7,
        concrete_strength_MPa: 41.3,
        peak_load_kN: 31.4,
      }),
      row(4, { study_id: "second", concrete_strength_MPa: 41.3, peak_load_kN: 35.9 }),
    ];
    const tests = TestTable.fromRows([...first, ...second]);
    expect(sameTestTwice(tests).map(({ rows }) => rows)).toEqual([
      [0, 2],
      [1, 3],
    ]);
    const [finding, ...more] = sameTestFindings(tests, "own");
    expect(more).toEqual([]);
    expect(finding).toMatchObject({ severity: "information", rule: "same-test-in-two-studies" });
    const third = [
      row(5, { peak_load_kN: 40.02 }),
      row(6, { study_id: "second", peak_load_kN: 40 }),
    ];
    expect(
      sameTestFindings(TestTable.fromRows([...first, ...second, ...third]), "own")[0]?.severity,
    ).toBe("warning");
    expect(finding?.message).toContain("2 tests of the studies first and second");
    expect(finding?.message).toContain("t1 = t3, t2 = t4");
  });

  it("is no test of the same study, of another load, embedment or set-up", () => {
    const other = (more: Partial<TestRowInput>): number =>
      sameTestTwice(TestTable.fromRows([row(1), row(2, { study_id: "second", ...more })])).length;
    expect(other({})).toBe(1);
    expect(other({ study_id: "first" })).toBe(0);
    expect(other({ peak_load_kN: 31.8 })).toBe(0);
    expect(other({ embedment_mm: 65 })).toBe(0);
    expect(other({ setup: "beam_end" })).toBe(0);
  });

  it("is found for 30 rows that a compilation repeats rounded, and hardly ever by chance among 1,412 invented tests of two laboratories", () => {
    expect(sameTestTwice(TestTable.fromRows(demo)).length).toBeLessThan(8);
    const copied = demo.slice(0, 30).map((test) => ({
      ...test,
      test_id: `copy of ${test.test_id}`,
      study_id: "compilation",
      concrete_strength_MPa: Number(test.concrete_strength_MPa.toPrecision(3)),
      peak_load_kN: Number((test.peak_load_kN ?? NaN).toPrecision(3)),
    }));
    const found = sameTestTwice(TestTable.fromRows([...demo.slice(0, 200), ...copied]));
    expect(found.filter(({ studies }) => studies.includes("compilation")).length).toBe(30);
  });
});

describe("both checks in a large table", () => {
  // 60,000 rows of eight invented studies; what is planted among them is found, and the time grows
  // with the rows only.
  const random = createRandom(41);
  const one = (k: number): TestRowInput =>
    row(k, {
      study_id: `study ${String(k % 8)}`,
      bar_diameter_mm: 6 + 26 * random.uniform(),
      concrete_strength_MPa: 20 + 60 * random.uniform(),
      embedment_mm: 40 + 400 * random.uniform(),
      peak_load_kN: Math.exp(1 + 5 * random.uniform()),
    });
  const many = Array.from({ length: 60_000 }, (_, k) => one(k));
  const planted = many.slice(0, 5).map((test, k) => ({
    ...test,
    test_id: `again ${String(k)}`,
    study_id: "compilation",
    peak_load_kN: (test.peak_load_kN ?? NaN) * 1.002,
  }));
  const powers = [50.7, 42, 35.2, 61].flatMap((fc, b) =>
    Array.from({ length: 5 }, (_, k) =>
      row(70_000 + 10 * b + k, {
        study_id: "generated",
        embedment_mm: 60 + 10 * k,
        concrete_strength_MPa: fc,
        peak_load_kN: (20 + k) * (fc / 50.7) ** 0.55,
      }),
    ),
  );
  const tests = TestTable.fromRows([...many, ...planted, ...powers]);

  it("find a specimen repeated by another study", () => {
    const found = sameTestTwice(tests).filter(({ studies }) => studies.includes("compilation"));
    expect(found.map(({ rows }) => rows)).toEqual([0, 1, 2, 3, 4].map((k) => [k, 60_000 + k]));
  });

  it("find loads that follow a power", () => {
    expect(powersOfColumn(tests)).toEqual([
      expect.objectContaining({
        study: "generated",
        column: "concrete_strength_MPa",
        exponent: 0.55,
        blocks: 5,
      }),
    ]);
  });

  it("agree with looking at every pair of rows", () => {
    // Crowded: three digits and few sizes, so that one test agrees with several, at and beyond the
    // 0.5 %.
    const crowded = Array.from({ length: 600 }, (_, k) =>
      row(k, {
        study_id: `study ${String(k % 3)}`,
        bar_material: random.uniform() < 0.5 ? "gfrp" : "steel",
        bar_diameter_mm: random.uniform() < 0.5 ? 12 : 12.7,
        concrete_strength_MPa: 40 + Math.round(4 * random.uniform()) / 10,
        embedment_mm: 100 + Math.round(10 * random.uniform()) / 10,
        peak_load_kN: 30 + Math.round(20 * random.uniform()) / 10,
      }),
    );
    const near = (a: number, b: number, within: number): boolean =>
      Math.abs(a - b) <= within * Math.max(a, b);
    const order = crowded
      .map((_, i) => i)
      .sort((a, b) => (crowded[a]!.peak_load_kN ?? 0) - (crowded[b]!.peak_load_kN ?? 0) || a - b);
    const taken = new Set<number>();
    const expected: number[][] = [];
    for (const [place, a] of order.entries()) {
      const b = taken.has(a)
        ? undefined
        : order.slice(place + 1).find((other) => {
            const [one, two] = [crowded[a]!, crowded[other]!];
            return (
              !taken.has(other) &&
              one.study_id !== two.study_id &&
              one.bar_material === two.bar_material &&
              near(one.peak_load_kN ?? 0, two.peak_load_kN ?? 0, 0.005) &&
              near(one.embedment_mm, two.embedment_mm, 0.005) &&
              near(one.concrete_strength_MPa, two.concrete_strength_MPa, 0.005) &&
              near(one.bar_diameter_mm, two.bar_diameter_mm, 0.02)
            );
          });
      if (b === undefined) continue;
      taken.add(a).add(b);
      expected.push(a < b ? [a, b] : [b, a]);
    }
    expect(expected.length).toBeGreaterThan(100);
    expect(sameTestTwice(TestTable.fromRows(crowded)).map(({ rows }) => [...rows])).toEqual(
      expected.sort((a, b) => a[0]! - b[0]!),
    );
  });
});

describe("rows that look generated", () => {
  // Blocks of equal geometry whose loads are those of the first block times (f_c / 50.7)^0.55, as a
  // public table had them.
  const random = createRandom(14);
  const geometry = Array.from({ length: 6 }, () => ({
    embedment_mm: Math.round(50 + 100 * random.uniform()),
    cover_mm: Math.round(20 + 40 * random.uniform()),
    load: 20 + 30 * random.uniform(),
  }));
  const made = (scatter: number): TestTable =>
    TestTable.fromRows(
      [50.7, 42, 35.2, 61].flatMap((fc, b) =>
        geometry.map(({ embedment_mm, cover_mm, load }, k) =>
          row(10 * b + k, {
            embedment_mm,
            cover_mm,
            concrete_strength_MPa: fc,
            peak_load_kN: Number(
              (load * (fc / 50.7) ** 0.55 * Math.exp(scatter * random.normal())).toPrecision(4),
            ),
          }),
        ),
      ),
    );

  it("are found with the column and the power", () => {
    expect(powersOfColumn(made(0))).toEqual([
      expect.objectContaining({ study: "first", column: "concrete_strength_MPa", blocks: 6 }),
    ]);
    expect(powersOfColumn(made(0))[0]?.exponent).toBeCloseTo(0.55, 2);
    expect(powersOfColumn(made(0))[0]?.rows).toHaveLength(24);
    expect(generatedRowFindings(made(0), "own")[0]).toMatchObject({
      severity: "warning",
      rule: "loads-follow-a-power",
    });
  });

  it("are not found among tests with a scatter of 3 %, nor in the invented campaign", () => {
    expect(powersOfColumn(made(0.03))).toEqual([]);
    expect(powersOfColumn(TestTable.fromRows(demo))).toEqual([]);
  });
});
