import { describe, expect, it } from "vitest";
import { loadUnitFindings } from "../../../kernel-lib/src/cli/dataset/load-unit-findings";
import { TestTable, type TestRowInput } from "../../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../../kernel-lib/src/demonstration";
import { code } from "../../../kernel-lib/src/provisions";
import { N_PER_LBF } from "../../../kernel-lib/src/units";

const codes = ["aci318-19", "en1992-4-2018"].map((id) => code(id));
const { tests } = generateDemonstration(2026);
const found = (rows: readonly TestRowInput[]): string[] =>
  loadUnitFindings(TestTable.fromRows(rows), codes, "own").map(
    ({ message, rule, severity }) => `${severity} ${rule}: ${message}`,
  );
const times = (factor: number, which: (i: number) => boolean = () => true) =>
  tests.map((test, i) =>
    which(i) ? { ...test, peak_load_kN: (test.peak_load_kN ?? NaN) * factor } : test,
  );

describe("loads in another unit", () => {
  it("are none in the invented campaign", () => {
    expect(found(tests)).toEqual([]);
  });

  // 1 kip = 4.4482 kN; loads typed in kip are 0.22 of what they are in kN, loads in lbf 225 times,
  // loads in N 1000 times.
  it.each([
    ["kip entered as kN", 1000 / (1000 * N_PER_LBF)],
    ["lbf entered as kN", 1000 / N_PER_LBF],
    ["N entered as kN", 1000],
    ["kN entered as N, kip as lbf, or MN as kN", 0.001],
  ])("of a whole study are named: %s", (says, factor) => {
    const said = found(times(factor));
    expect(said).toHaveLength(2);
    for (const one of said)
      expect(one).toMatch(
        new RegExp(`^warning load-unit: the loads of demo-[a-z-]+ are .*: .*\\b${says}\\b`),
      );
  });

  it("of single rows are named beside the median of their kind in the study, four of five of them, and no other row", () => {
    // Modes that the codes have a capacity for; excluded rows have their reason.
    const known = [
      "bond",
      "concrete_breakout",
      "concrete_edge_breakout",
      "pryout",
      "bar_shear",
      "bar_rupture",
    ];
    const judged = (i: number): boolean =>
      (tests[i]?.excluded ?? null) === null &&
      known.includes(tests[i]?.failure_mode ?? "") &&
      tests[i]?.installation === "post_installed";
    const wrong = new Set(
      tests
        .map((_, i) => i)
        .filter((i) => i % 29 === 0 && judged(i))
        .map((i) => tests[i]?.test_id ?? ""),
    );
    const said = found(times(1 / N_PER_LBF, (i) => wrong.has(tests[i]?.test_id ?? "")));
    const named = said.map((one) =>
      one.slice("warning load-unit: ".length, one.indexOf(": the load is")),
    );
    expect(wrong.size).toBeGreaterThan(25);
    expect(named.filter((id) => !wrong.has(id))).toEqual([]);
    expect(named.length / wrong.size).toBeGreaterThan(0.8);
    for (const one of said) expect(one).toContain("kip entered as kN");
  });
});
