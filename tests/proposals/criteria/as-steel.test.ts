import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { FactorDerivation, asSteel } from "../../../kernel-lib/src/proposals";
import { comparisonOf, groupOf, type RatioRow } from "./criteria-rows";

type Row = [
  series: string,
  study: string,
  cell: string,
  frp: number,
  diameter: number,
  ratio: number,
];
const recorded = JSON.parse(
  readFileSync(new URL("../recomputed/as-steel.json", import.meta.url), "utf8"),
) as { rows: Row[] };
const sample = recorded.rows.map(
  ([series_id, study_id, cell, frp, bar_diameter_mm, ratio]): RatioRow => ({
    series_id,
    study_id,
    bar_material: frp === 1 ? "gfrp" : "steel",
    bar_diameter_mm,
    adhesive: cell.slice(-1),
    ratio,
    ...(cell.startsWith("group") ? { group_nx: 2, spacing_x_mm: 150 } : {}),
  }),
);
const QUESTION = { fractile: 0.05, confidence: 0.9 };

function ofRows(rows: readonly RatioRow[]): ReturnType<typeof asSteel> {
  const comparison = comparisonOf(rows);
  const of = (material: string) =>
    comparison.evidence.filter(
      ({ row }) => comparison.tests.text(row, "bar_material") === material,
    );
  return asSteel(comparison, of("gfrp"), of("steel"), QUESTION);
}

describe("asSteel", () => {
  const found = ofRows(sample);
  it("finds what restricted maximum likelihood finds (R nlme, tests/proposals/recomputed/as-steel.R)", () => {
    // Rscript as-steel.R: delta -0.1660906 se 0.0337643 icc 0.5584 diameter 14.37766, 24 series
    // less 8 fixed effects
    const [delta, error, diameter, degrees] = [-0.1660906, 0.0337643, 14.37766, 16];
    expect(found.scatter).toBeNull();
    expect(found.diameter_mm).toBeCloseTo(diameter, 4);
    // The library averages over the intraclass correlation, R takes the most likely one: they agree
    // within a fraction of the error.
    expect(Math.abs(Math.log(found.estimate!) - delta) / error).toBeLessThan(0.1);
    // R: qt(0.9, 16) = 1.336757
    expect(degrees).toBe(24 - 8);
    const ofR = 1.336757 * error;
    expect(Math.log(found.estimate! / found.lower!) / ofR).toBeGreaterThan(0.95);
    expect(Math.log(found.estimate! / found.lower!) / ofR).toBeLessThan(1.15);
    expect(found.factor).toBe(found.lower);
    expect(found.pairs.map(({ series }) => series)).toEqual(
      Array.from({ length: 4 }, () => [3, 3]),
    );
  });
  it("what the provision errs for steel and FRP alike cancels out", () => {
    const again = ofRows(sample.map((row) => ({ ...row, ratio: 0.7 * row.ratio })));
    for (const key of ["estimate", "lower", "upper"] as const)
      expect(again[key]).toBeCloseTo(found[key]!, 6);
    const byCell = ofRows(
      sample.map((row) => ({ ...row, ratio: (row.adhesive === "P" ? 1.4 : 0.9) * row.ratio })),
    );
    for (const key of ["estimate", "lower", "upper"] as const)
      expect(byCell[key]).toBeCloseTo(found[key]!, 6);
  });
  it("follows a factor on FRP alone", () => {
    const lowered = ofRows(
      sample.map((row) => ({ ...row, ratio: (row.bar_material === "gfrp" ? 0.9 : 1) * row.ratio })),
    );
    for (const key of ["estimate", "lower", "upper"] as const)
      expect(lowered[key]).toBeCloseTo(0.9 * found[key]!, 6);
  });
  it("gives no factor with fewer than 3 series of steel beside FRP, and says so", () => {
    const steel = [
      ...new Set(
        sample.filter((row) => row.bar_material === "steel").map(({ series_id }) => series_id),
      ),
    ];
    const few = ofRows(
      sample.filter(
        (row) => row.bar_material === "gfrp" || steel.slice(0, 2).includes(row.series_id),
      ),
    );
    expect(few).toMatchObject({ factor: null, estimate: null, lower: null, upper: null });
    expect(few.basis).toContain("2 series of steel");
    expect(ofRows(sample.filter((row) => row.bar_material === "gfrp"))).toMatchObject({
      factor: null,
      pairs: [],
    });
  });
  it("leaves out FRP in cells without steel, and counts it", () => {
    const without = ofRows(
      sample.filter((row) => row.bar_material === "gfrp" || row.adhesive === "P"),
    );
    expect(without.pairs).toHaveLength(2);
    expect(without.unpaired).toBe(
      sample.filter((row) => row.bar_material === "gfrp" && row.adhesive !== "P").length,
    );
  });
  it("gives none where steel is judged by another provision, as bar rupture in shear is", () => {
    const rows = ["steel", "gfrp"].flatMap((bar_material) =>
      Array.from({ length: 12 }, (_, i): RatioRow => ({
        bar_material: bar_material as "steel" | "gfrp",
        series_id: `${bar_material}${i % 4}`,
        action: "shear",
        setup: "direct_shear",
        failure_mode: "bar_shear",
        bar_strength_MPa: 640,
        bar_shear_strength_specified_MPa: 140,
        bar_strength_specified_MPa: 550,
        bar_yield_MPa: 540,
        ratio: 1 + 0.01 * ((7 * i) % 5),
      })),
    );
    const comparison = comparisonOf(rows, "bar_shear");
    const of = (material: string) =>
      comparison.evidence.filter(
        ({ row }) => comparison.tests.text(row, "bar_material") === material,
      );
    expect([of("steel").length, of("gfrp").length]).toEqual([12, 12]);
    const other = asSteel(comparison, of("gfrp"), of("steel"), QUESTION);
    expect(other.factor).toBeNull();
    expect(other.basis).toContain("another provision");
  });
  it("left-out rows add up, and each is the factor of the comparison without them", () => {
    const comparison = comparisonOf(sample);
    const group = groupOf(comparison, "gfrp");
    const derivation = new FactorDerivation(comparison);
    const leftOut = derivation.leaveOut(group, "as steel", "study", 0.7);
    expect(leftOut.map(({ left }) => left)).toEqual(["A", "B"]);
    expect(leftOut.reduce((sum, { n }) => sum + n, 0)).toBe(group.n);
    for (const { left, factor, adequate, n, below } of leftOut) {
      const rest = ofRows(sample.filter(({ study_id }) => study_id !== left)).factor;
      if (rest === null) expect([factor, adequate]).toEqual([null, null]);
      else {
        expect(factor).toBeCloseTo(Math.min(1, rest), 9);
        expect(adequate).toBe(0.7 <= factor!);
        expect(below).toBe(
          sample.filter(
            (row) => row.bar_material === "gfrp" && row.study_id === left && row.ratio < factor!,
          ).length,
        );
      }
      expect(n).toBe(
        sample.filter((row) => row.bar_material === "gfrp" && row.study_id === left).length,
      );
    }
    expect(leftOut.some(({ factor }) => factor !== null)).toBe(true);
  });
});
