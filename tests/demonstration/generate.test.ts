import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readDataset } from "../../kernel-lib/src/dataset";
import {
  DEMONSTRATION_SEED,
  generateDemonstration,
  meanBreakout,
  meanEdgeBreakout,
  plannedCampaign,
  specimenOf,
  TRUTH,
  writeDemonstration,
} from "../../kernel-lib/src/demonstration";

const committed = new URL("../../datasets/demo/", import.meta.url).pathname;

describe("the invented campaign", () => {
  const { tests, excludedNotes, studies } = generateDemonstration(DEMONSTRATION_SEED);
  const values = (name: keyof (typeof tests)[number]): Set<unknown> =>
    new Set(tests.map((t) => t[name]));

  it("has the promised extent", () => {
    expect(tests.length).toBeGreaterThanOrEqual(400);
    const sizes = new Map<string, number>();
    for (const { series_id } of tests) sizes.set(series_id, (sizes.get(series_id) ?? 0) + 1);
    expect(sizes.size).toBeGreaterThanOrEqual(60);
    expect(Math.min(...sizes.values())).toBeGreaterThanOrEqual(3);
    expect(Math.max(...sizes.values())).toBeLessThanOrEqual(10);
    expect(values("bar_size")).toEqual(new Set(["10", "13", "16", "19", "25"]));
    expect(values("adhesive")).toEqual(new Set(["P", "Q", null]));
    expect(new Set(tests.map((t) => `${t.bar_material} ${t.bar_surface ?? ""}`))).toEqual(
      new Set(["steel ribbed", "gfrp ribbed", "gfrp sand_coated", "bfrp sand_coated"]),
    );
    expect(values("cracked")).toEqual(new Set(["yes", "no"]));
    expect(new Set(tests.map((t) => t.extra?.["layout"]))).toEqual(
      new Set(["field", "one_edge", "corner", "pair", "four", "pair_at_edge", "bond_specimen"]),
    );
    expect(excludedNotes.length).toBe(8);
    expect(
      studies.every(
        ({ provenance, remarks }) => provenance === "demo" && (remarks ?? "").includes("INVENTED"),
      ),
    ).toBe(true);
  });

  it("stays within the ranges it states", () => {
    for (const t of tests) {
      expect(t.concrete_strength_MPa).toBeGreaterThanOrEqual(22);
      expect(t.concrete_strength_MPa).toBeLessThanOrEqual(60);
      const ratio = t.embedment_mm / t.bar_diameter_mm;
      expect(ratio).toBeGreaterThanOrEqual(4);
      expect(ratio).toBeLessThan(15.6);
      expect(t.peak_load_kN).toBeGreaterThan(0);
    }
  });

  it("shows every mode it can, including bounds", () => {
    expect(values("failure_mode")).toEqual(
      new Set([
        "bond",
        "concrete_breakout",
        "splitting",
        "bar_rupture",
        "rupture_at_grip",
        "concrete_edge_breakout",
        "pryout",
        "bar_shear",
        "stopped",
      ]),
    );
  });

  it("is the same from the same seed and another from another", () => {
    expect(generateDemonstration(DEMONSTRATION_SEED).tests).toEqual(tests);
    expect(generateDemonstration(1).tests.map((t) => t.peak_load_kN)).not.toEqual(
      tests.map((t) => t.peak_load_kN),
    );
  });

  it("is what is committed, byte for byte, and in order", async () => {
    const folder = await mkdtemp(join(tmpdir(), "demo-"));
    try {
      await writeDemonstration(join(folder, "demo"));
      for (const file of [
        "tests.csv",
        "studies.csv",
        "README.md",
        "datapackage.json",
        ...(await readdir(join(committed, "curves"))).map((name) => `curves/${name}`),
      ]) {
        expect(await readFile(join(folder, "demo", file), "utf8"), file).toBe(
          await readFile(join(committed, file), "utf8"),
        );
      }
      const dataset = await readDataset(join(folder, "demo"));
      expect(dataset.diagnostics).toEqual([]);
      expect(dataset.tests.length).toBe(tests.length);
    } finally {
      await rm(folder, { recursive: true });
    }
  });
});

describe("true mean models against hand calculations", () => {
  const series = { ...plannedCampaign()[0]!, kind: 0, size: 2, embedment: 6 };
  const field = { ...specimenOf(series, 25), diameter: 16, embedment: 100, thickness: 300 };

  it("breakout: 14.6 sqrt(25) 100^1.5 = 73,000 N for a bar in the field", () => {
    expect(meanBreakout(field) / TRUTH.barKinds[0]!.breakout).toBeCloseTo(73000, 6);
  });

  it("breakout near an edge: c1 = 75 mm gives 225/300 x 0.85", () => {
    expect(
      meanBreakout({ ...field, edges: [75, Infinity, Infinity, Infinity] }) / meanBreakout(field),
    ).toBeCloseTo(0.75 * 0.85, 12);
  });

  it("a pair far apart carries twice a single bar, a near pair less", () => {
    expect(meanBreakout({ ...field, ny: 2, sy: 300 }) / meanBreakout(field)).toBeCloseTo(2, 12);
    expect(meanBreakout({ ...field, ny: 2, sy: 100 }) / meanBreakout(field)).toBeCloseTo(4 / 3, 12);
  });

  it("edge breakout: the full area for a thick member, two thirds for h = c1", () => {
    const edge = { ...field, edges: [100, Infinity, Infinity, Infinity] as const };
    // 1.08 (100/16)^0.2 sqrt(16) sqrt(25) 100^1.5 = 31,162 N
    expect(meanEdgeBreakout(edge)).toBeCloseTo(1.08 * 6.25 ** 0.2 * 4 * 5 * 1000, 6);
    expect(meanEdgeBreakout({ ...edge, thickness: 100 }) / meanEdgeBreakout(edge)).toBeCloseTo(
      2 / 3,
      12,
    );
  });
});
