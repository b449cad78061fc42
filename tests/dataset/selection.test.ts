import { describe, expect, it } from "vitest";
import { readDatasets, select, TestTable, type Study } from "../../kernel-lib/src/dataset";
import { PLAIN_TEST as base } from "./plain-test";

const study: Study = {
  study_id: "s",
  provenance: "own",
  citation: null,
  doi: null,
  year: 2001,
  licence: null,
  transcription: null,
  remarks: null,
};

describe("selection", () => {
  const tests = TestTable.fromRows([
    { ...base, test_id: "1", extra: { a: "x-y", b: "z" } },
    { ...base, test_id: "2", extra: { a: "x", b: "y-z" } },
    { ...base, test_id: "3", bar_size: "1", extra: { a: null, b: null } },
    { ...base, test_id: "4", bar_material: "steel", excluded: "bad", study_id: "t" },
  ]);
  const all = select({ tests, studies: [study] });

  it("filters by values, lists of values, blanks and predicates", () => {
    expect(all.where({ bar_material: "steel" }).tests.texts("test_id")).toEqual(["4"]);
    expect(all.where({ bar_material: ["steel", "gfrp"] }).kept().tests.length).toBe(3);
    expect(all.where({ bar_size: null }).tests.length).toBe(3);
    expect(all.where((row) => row.peak_load_kN > 60).tests.length).toBe(0);
    expect(() => all.where({ colour: "red" } as never)).toThrow(/no column "colour"/);
  });

  it("groups without merging what only looks alike", () => {
    expect(
      all.by("a", "b").map(({ by, tests: group }) => [by["a"], by["b"], group.length]),
    ).toEqual([
      ["x-y", "z", 1],
      ["x", "y-z", 1],
      [null, null, 2],
    ]);
    expect(
      all.by("bar_size").map(({ by, tests: group }) => [by["bar_size"], group.length]),
    ).toEqual([
      [null, 3],
      ["1", 1],
    ]);
  });

  it("joins studies: a row without one gets null and is in no selection by study", () => {
    expect(all.withStudies().map(({ study: s }) => s?.year ?? null)).toEqual([
      2001,
      2001,
      2001,
      null,
    ]);
    expect(all.whereStudy(({ year }) => year === 2001).tests.length).toBe(3);
  });

  it("splits the real data sets without losing a row", async () => {
    const folder = (name: string): string =>
      new URL(`../../datasets/${name}`, import.meta.url).pathname;
    const both = await readDatasets([folder("published"), folder("demo")]);
    const groups = select(both).by("bar_material", "bar_size", "failure_mode");
    expect(groups.reduce((sum, { tests: group }) => sum + group.length, 0)).toBe(both.tests.length);
    expect(
      select(both).whereStudy(({ provenance }) => provenance === "published").tests.length,
    ).toBe(30);
  });
});
