import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { bondSlipCurve } from "../../kernel-lib/src/curves";
import { readDataset, readDatasets } from "../../kernel-lib/src/dataset";

const folder = new URL("../../datasets/published", import.meta.url).pathname;
const original = new URL("../../../shared/data/ijcsm_2018_table4.csv", import.meta.url).pathname;

describe("the published bond table", () => {
  it("is in order", async () => {
    const dataset = await readDataset(folder);
    expect(dataset.diagnostics).toEqual([]);
    expect(dataset.tests.length).toBe(30);
    expect(dataset.studies.map(({ doi }) => doi)).toEqual(["10.1186/s40069-018-0240-0"]);
  });

  it("gives the printed bond strength with the effective diameter, to its printed digit", async () => {
    const { tests } = await readDataset(folder);
    for (const row of tests.rows()) {
      const tau =
        (1000 * row.peak_load_kN) /
        (Math.PI * Number(row.extra["effective_diameter_mm"]) * row.embedment_mm);
      expect(Math.abs(tau - Number(row.extra["reported_bond_strength_MPa"]))).toBeLessThan(0.05);
    }
  });

  it("implies nearly one effective diameter for each bar, well above the nominal one", async () => {
    const { tests } = await readDataset(folder);
    const byBar = new Map<string, number[]>();
    for (const row of tests.rows()) {
      const bar = `${String(row.bar_diameter_mm)} ${String(row.extra["modulus_class"])}`;
      byBar.set(bar, [...(byBar.get(bar) ?? []), Number(row.extra["effective_diameter_mm"])]);
      const excess = Number(row.extra["effective_diameter_mm"]) / row.bar_diameter_mm;
      expect(excess).toBeGreaterThan(1.06);
      expect(excess).toBeLessThan(1.25);
    }
    expect(byBar.size).toBe(6);
    for (const diameters of byBar.values())
      expect(Math.max(...diameters) / Math.min(...diameters)).toBeLessThan(1.017);
  });

  it.skipIf(!existsSync(original))(
    `matches the first transcription row by row (needs ../shared/data/ijcsm_2018_table4.csv; ${existsSync(original) ? "present" : "absent, skipped"})`,
    async () => {
      const { tests } = await readDataset(folder);
      const lines = readFileSync(original, "utf8")
        .trim()
        .split("\n")
        .slice(1)
        .map((line) => line.split(","));
      expect(
        tests
          .rows()
          .map((r) => [
            r.bar_diameter_mm,
            r.embedment_mm,
            r.concrete_strength_MPa,
            r.peak_load_kN,
            r.extra["reported_bond_strength_MPa"],
            r.replicates,
          ]),
      ).toEqual(lines.map((cells) => [1, 3, 4, 5, 6, 9].map((i) => Number(cells[i]))));
    },
  );

  it("joins with the demonstration without a clash", async () => {
    const both = await readDatasets([
      folder,
      new URL("../../datasets/demo", import.meta.url).pathname,
    ]);
    expect(both.diagnostics).toEqual([]);
    expect(new Set(both.studies.map(({ provenance }) => provenance))).toEqual(
      new Set(["published", "demo"]),
    );
    expect(both.tests.source(31)).toEqual({ file: "demo/tests.csv", row: 3 });
  });
});

describe("two published averages", () => {
  // Bai et al. 2017, doi 10.12783/dtmse/ictim2017/10098: 28 mm GFRP bar in C25. The bars had end
  // plates: a check of P / (pi d l), not of bond.
  it.each([
    [840, 384, 5.2],
    [420, 267, 7.24],
  ])("bonded %d mm, %d kN: %d MPa within 0.2 %%", (embedment, load, printed) => {
    const stress = bondSlipCurve(
      { slip_mm: Float64Array.of(0), load_kN: Float64Array.of(load) },
      28,
      embedment,
    ).bond_stress_MPa[0];
    expect(Math.abs((stress ?? NaN) / printed - 1)).toBeLessThan(0.002);
  });
});
