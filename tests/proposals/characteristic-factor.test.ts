import { describe, expect, it } from "vitest";
import { compare, groupRatios } from "../../kernel-lib/src/comparison";
import { characteristicFactor, factorCase, type DerivedFactor, type FactorSettings } from "../../kernel-lib/src/proposals";
import { code } from "../../kernel-lib/src/provisions";
import { factorTable } from "../../kernel-lib/src/tables";
import { table } from "../provisions/specimens";

const present = code("aci318-19");
const within = [0.97, 1, 1.03];
/** Loads of series that differ by their means, three tests each. */
const rows = (means: readonly number[], series = (k: number): string => `s${k}`) => means.flatMap((mean, k) => within.map((one) => ({ series_id: series(k), study_id: k % 2 === 0 ? "A" : "B", failure_mode: "bond" as const, peak_load_kN: mean * one })));
const MEANS = [22, 24, 26, 28, 30, 32];

function factorOf(of: ReturnType<typeof rows>, settings: FactorSettings = {}): DerivedFactor {
  const tests = table(...of);
  const group = groupRatios(compare(tests, present), ["mode", "bar_material"]).find(({ by }) => by["mode"] === "bond")!;
  return characteristicFactor(group, (row) => ({ series: tests.text(row, "series_id") ?? "", study: tests.text(row, "study_id") ?? "" }), { resamples: 100, ...settings });
}

describe("characteristicFactor", () => {
  it("rests on the count by series, with the researcher's own step beside it", () => {
    const found = factorOf(rows(MEANS));
    expect(found).toMatchObject({ status: "derived", basis: "series", series: 6, seriesFailed: 6 });
    expect(found.exact!).toBeLessThan(found.exactOfTests!);
    expect(found.correlation!).toBeGreaterThan(0.7);
    expect(found.effectiveTests!).toBeLessThan(9);
    expect(found.rounded!).toBeLessThanOrEqual(found.exact!);
    expect(found.reading).toMatch(/^Bond, GFRP: a factor of .* intraclass correlation 0\.\d\d; taken as independent they would give/);
    expect(factorOf(rows(MEANS), { basis: "tests" })).toMatchObject({ status: "derived", basis: "tests", exact: found.exactOfTests, correlation: null });
  });
  it("is not derived from two series, whose number by tests is told all the same", () => {
    const two = factorOf(rows(MEANS, (k) => `s${k % 2}`));
    expect(two).toMatchObject({ status: "not derived", exact: null, rounded: null });
    expect(two.exactOfTests).not.toBeNull();
    expect(two.reading).toContain("only 2 series failed in the mode, and at least 3 are needed");
    expect(two.reading).toContain(`taken as independent, the tests would give ${two.exactOfTests!.toFixed(3)}`);
    expect(factorOf(rows(MEANS, (k) => `s${k % 2}`), { basis: "tests" }).status).toBe("derived");
  });
  it("warns where a study cannot be left out, and where the tests of a series are all but equal", () => {
    const leaning = factorOf(MEANS.flatMap((mean, k) => within.map((one) => ({ series_id: `s${k}`, study_id: k < 4 ? "A" : "B", failure_mode: "bond" as const, peak_load_kN: mean * one }))));
    expect(leaning.warnings).toContain("without A too little is left to derive a factor");
    const copied = factorOf(rows(MEANS).map((row, k) => ({ ...row, peak_load_kN: MEANS[Math.floor(k / 3)]! })));
    expect(copied).toMatchObject({ correlation: 1 });
    expect(copied.warnings).toContain("the tests of a series are all but equal and count as one: look whether one result stands in the data several times");
  });
  it("more tests of the same series do not raise it as more series do", () => {
    const again = (times: number): number => factorOf(Array.from({ length: times }, () => rows(MEANS)).flat()).exact!;
    const more = factorOf(Array.from({ length: 4 }, (_, copy) => rows(MEANS, (k) => `s${k} ${copy}`)).flat()).exact!;
    expect(again(4) - again(1)).toBeLessThan(0.3 * (more - again(1)));
  });
  it("a proposal carries the rounded one, and its table both", () => {
    const tests = table(...rows(MEANS.map((mean) => 0.7 * mean)));
    const found = factorCase(tests, present, { resamples: 100 });
    const [bond] = found.factors.filter(({ label }) => label.startsWith("bond"));
    expect(found.proposals.find(({ id }) => id === "frp-bond")?.factor).toBe(String(bond!.rounded));
    const row = factorTable([bond!], { id: "f", title: "f" }).rows[0]!;
    expect([row["exact"], row["exact_of_tests"]]).toEqual([bond!.exact, bond!.exactOfTests]);
  });
});
