import { describe, expect, it } from "vitest";
import {
  coverage,
  duplicateFindings,
  exclusions,
  likelyDuplicates,
  missingness,
  readDatasets,
  repeatedRows,
  TestTable,
} from "../../../kernel-lib/src/dataset";
import { PLAIN_TEST as base } from "../plain-test";

const tests = TestTable.fromRows([
  { ...base, test_id: "1", bar_size: "9" },
  { ...base, test_id: "2", bar_size: "16", failure_mode: "rupture_at_grip" },
  { ...base, test_id: "3", study_id: "t" },
  {
    ...base,
    test_id: "4",
    setup: "unconfined_tension",
    failure_mode: "bar_rupture",
    bar_size: "16",
    peak_load_kN: 51,
  },
  { ...base, test_id: "5", excluded: "hole not cleaned", peak_load_kN: 20 },
  {
    ...base,
    test_id: "6",
    setup: "direct_shear",
    action: "shear",
    failure_mode: "bar_shear",
    peak_load_kN: 21,
  },
]);

describe("audit", () => {
  it("counts every test once, blanks and sizes in order", () => {
    const table = coverage(tests, ["bar_size"], ["setup", "failure_mode"]);
    expect(table.rowNames).toEqual(["(blank)", "9", "16"]);
    expect(table.counts.flat().reduce((a, b) => a + b, 0)).toBe(6);
    expect(
      table.counts[table.rowNames.indexOf("16")]?.[
        table.columnNames.indexOf("confined_tension · rupture_at_grip")
      ],
    ).toBe(1);
    expect(() => coverage(tests, ["colour"], ["setup"])).toThrow(/no column "colour"/);
  });

  it("finds what is missing, excluded and doubled", () => {
    expect(missingness(tests, ["bar_size", "test_id"])).toEqual([
      { column: "test_id", filled: 6, missing: 0, share: 1 },
      { column: "bar_size", filled: 3, missing: 3, share: 0.5 },
    ]);
    expect(exclusions(tests)).toEqual([
      { test_id: "5", study_id: "s", reason: "hole not cleaned", file: null, row: null },
    ]);
    expect(likelyDuplicates(tests)).toEqual([{ test_ids: ["1", "2", "3"], study_ids: ["s", "t"] }]);
  });

  it("finds a row copied within a study, and no pair that differs anywhere", () => {
    const copied = TestTable.fromRows([
      { ...base, test_id: "1", remarks: "x" },
      { ...base, test_id: "2", replicates: 1 },
      { ...base, test_id: "3", bar_size: "16" },
      { ...base, test_id: "4", peak_load_kN: 50.000001 },
      { ...base, test_id: "5", study_id: "t" },
    ]);
    expect(repeatedRows(copied)).toEqual([{ test_ids: ["1", "2"], study_ids: ["s"] }]);
    expect(duplicateFindings(copied, "own").map(({ rule, severity }) => [rule, severity])).toEqual([
      ["likely-duplicate", "warning"],
      ["repeated-row", "information"],
    ]);
  });

  it("finds no specimen twice in the committed data", async () => {
    const folder = (name: string): string =>
      new URL(`../../../datasets/${name}`, import.meta.url).pathname;
    const both = await readDatasets([folder("published"), folder("demo")]);
    expect(likelyDuplicates(both.tests)).toEqual([]);
    expect(exclusions(both.tests)).toHaveLength(8);
    expect(
      exclusions(both.tests).every(({ row, reason }) => row !== null && reason.length > 10),
    ).toBe(true);
  });
});
