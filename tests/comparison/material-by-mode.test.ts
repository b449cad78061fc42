import { describe, expect, it } from "vitest";
import { compare, compareByMode, type Comparison } from "../../kernel-lib/src/comparison";
import { code } from "../../kernel-lib/src/provisions";
import { censored, clusters, values } from "../statistics/censoring/right-censored-loads";
import { table } from "../provisions/specimens";

// One capacity for all rows, so that ratios are the loads but for a factor.
const rows = values.map((peak_load_kN, i) => ({
  bar_diameter_mm: 16, embedment_mm: 100, cracked: "no" as const, peak_load_kN, series_id: clusters[i]!,
  bar_material: i < 6 ? ("steel" as const) : ("gfrp" as const), failure_mode: censored[i]! ? ("rupture_at_grip" as const) : ("bond" as const),
}));
const compared = (of: typeof rows): Comparison => {
  const all = compare(table(...of), code("uniform-bond-1998"), { level: "expected", options: { mean_bond_stress: 10 } });
  return { ...all, evidence: all.evidence.filter(({ mode }) => mode === "bond") };
};
const question = { column: "bar_material", reference: "steel" };

describe("classes mode by mode with lower bounds", () => {
  const [line] = compareByMode(compared(rows), question);

  it("agree with R: survreg(Surv(x, d) ~ g, dist = \"lognormal\", cluster, robust = TRUE), var times 4/3, t on 3; survdiff(Surv(x, d) ~ g)", () => {
    expect(line).toMatchObject({ mode: "bond", other: "gfrp", failures: [4, 4], bounds: [2, 2] });
    expect(line!.ratio).toBeCloseTo(1.0299853138, 7);
    expect(line!.lower).toBeCloseTo(0.907167036043, 5);
    expect(line!.upper).toBeCloseTo(1.16943154291, 5);
    expect(line!.p).toBeCloseTo(0.512685637427, 5);
    expect(line!.pLogRank).toBeCloseTo(0.811252376155, 8);
    expect(line!.reading).toMatch(/^The data do not tell the typical bond ratio of GFRP from that of steel: it can be from .+ lower to .+ higher .*4 lower bounds/);
  });

  it("turn to one over the ratio when the reference turns", () => {
    const [turned] = compareByMode(compared(rows), { ...question, reference: "gfrp" });
    expect(turned!.ratio! * line!.ratio!).toBeCloseTo(1, 9);
    expect(turned!.lower! * line!.upper!).toBeCloseTo(1, 7);
    expect(turned!.p).toBeCloseTo(line!.p!, 8);
  });

  it("find a shift that is there, and say it with its sign", () => {
    const [low] = compareByMode(compared(rows.map((row, i) => (i < 6 ? row : { ...row, peak_load_kN: 0.6 * row.peak_load_kN }))), question);
    expect(low!.ratio).toBeCloseTo(0.6 * line!.ratio!, 6);
    expect(low!.reading).toMatch(/% lower than that of steel \(95 % interval/);
  });

  it("say what is missing where a side hardly failed", () => {
    const [none] = compareByMode(compared(rows.map((row, i) => (i < 6 ? row : { ...row, failure_mode: "rupture_at_grip" as const }))), question);
    expect(none).toMatchObject({ ratio: null, p: null, pAdjusted: null, pLogRank: null, failures: [4, 0], bounds: [2, 6] });
    expect(none!.reading).toMatch(/cannot tell, too few failures .*needed: at least 3 failures on each side \(there are 4 and 0\)/);
    const [one] = compareByMode(compared(rows.map((row) => ({ ...row, series_id: "only" }))), question);
    expect(one!.reading).toMatch(/cannot tell/);
    expect(one!.reading).not.toContain("NaN");
  });
});
