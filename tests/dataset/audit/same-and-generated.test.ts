import { describe, expect, it } from "vitest";
import { generatedRowFindings, powersOfColumn, sameTestFindings, sameTestTwice, TestTable, type TestRowInput } from "../../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../../kernel-lib/src/demonstration";
import { createRandom } from "../../../kernel-lib/src/statistics";

const demo = generateDemonstration(2026).tests;
const row = (k: number, more: Partial<TestRowInput> = {}): TestRowInput => ({
  test_id: `t${String(k)}`, study_id: "first", series_id: "a", bar_material: "gfrp", bar_diameter_mm: 12.7, installation: "cast_in", concrete_strength_MPa: 41.27, concrete_strength_basis: "cylinder",
  embedment_mm: 63.5, setup: "pullout_block", action: "tension", peak_load_kN: 31.42, failure_mode: "bond", ...more,
});

describe("the same test in two studies", () => {
  it("is found where the second prints it with fewer digits, and each test once", () => {
    const first = [row(1), row(2, { peak_load_kN: 35.88 })];
    const second = [row(3, { study_id: "second", bar_diameter_mm: 12.7, concrete_strength_MPa: 41.3, peak_load_kN: 31.4 }), row(4, { study_id: "second", concrete_strength_MPa: 41.3, peak_load_kN: 35.9 })];
    const tests = TestTable.fromRows([...first, ...second]);
    expect(sameTestTwice(tests).map(({ rows }) => rows)).toEqual([[0, 2], [1, 3]]);
    const [finding, ...more] = sameTestFindings(tests, "own");
    expect(more).toEqual([]);
    expect(finding).toMatchObject({ severity: "information", rule: "same-test-in-two-studies" });
    const third = [row(5, { peak_load_kN: 40.02 }), row(6, { study_id: "second", peak_load_kN: 40 })];
    expect(sameTestFindings(TestTable.fromRows([...first, ...second, ...third]), "own")[0]?.severity).toBe("warning");
    expect(finding?.message).toContain("2 tests of the studies first and second");
    expect(finding?.message).toContain("t1 = t3, t2 = t4");
  });

  it("is no test of the same study, of another load, embedment or set-up", () => {
    const other = (more: Partial<TestRowInput>): number => sameTestTwice(TestTable.fromRows([row(1), row(2, { study_id: "second", ...more })])).length;
    expect(other({})).toBe(1);
    expect(other({ study_id: "first" })).toBe(0);
    expect(other({ peak_load_kN: 31.8 })).toBe(0);
    expect(other({ embedment_mm: 65 })).toBe(0);
    expect(other({ setup: "beam_end" })).toBe(0);
  });

  it("is found for 30 rows that a compilation repeats rounded, and hardly ever by chance among 1,412 invented tests of two laboratories", () => {
    expect(sameTestTwice(TestTable.fromRows(demo)).length).toBeLessThan(8);
    const copied = demo.slice(0, 30).map((test) => ({
      ...test, test_id: `copy of ${test.test_id}`, study_id: "compilation", concrete_strength_MPa: Number(test.concrete_strength_MPa.toPrecision(3)), peak_load_kN: Number((test.peak_load_kN ?? NaN).toPrecision(3)),
    }));
    const found = sameTestTwice(TestTable.fromRows([...demo.slice(0, 200), ...copied]));
    expect(found.filter(({ studies }) => studies.includes("compilation")).length).toBe(30);
  });
});

describe("rows that look generated", () => {
  // Blocks of equal geometry whose loads are those of the first block times (f_c / 50.7)^0.55, as a public table had them.
  const random = createRandom(14);
  const geometry = Array.from({ length: 6 }, () => ({ embedment_mm: Math.round(50 + 100 * random.uniform()), cover_mm: Math.round(20 + 40 * random.uniform()), load: 20 + 30 * random.uniform() }));
  const made = (scatter: number): TestTable => TestTable.fromRows([50.7, 42, 35.2, 61].flatMap((fc, b) => geometry.map(({ embedment_mm, cover_mm, load }, k) => row(10 * b + k, {
    embedment_mm, cover_mm, concrete_strength_MPa: fc, peak_load_kN: Number((load * (fc / 50.7) ** 0.55 * Math.exp(scatter * random.normal())).toPrecision(4)),
  }))));

  it("are found with the column and the power", () => {
    expect(powersOfColumn(made(0))).toEqual([expect.objectContaining({ study: "first", column: "concrete_strength_MPa", blocks: 6 })]);
    expect(powersOfColumn(made(0))[0]?.exponent).toBeCloseTo(0.55, 2);
    expect(powersOfColumn(made(0))[0]?.rows).toHaveLength(24);
    expect(generatedRowFindings(made(0), "own")[0]).toMatchObject({ severity: "warning", rule: "loads-follow-a-power" });
  });

  it("are not found among tests with a scatter of 3 %, nor in the invented campaign", () => {
    expect(powersOfColumn(made(0.03))).toEqual([]);
    expect(powersOfColumn(TestTable.fromRows(demo))).toEqual([]);
  });
});
