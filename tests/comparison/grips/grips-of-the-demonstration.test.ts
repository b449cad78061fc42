import { describe, expect, it } from "vitest";
import {
  betterGrip,
  compare,
  gripMargins,
  gripStrengths,
} from "../../../kernel-lib/src/comparison";
import { TestTable } from "../../../kernel-lib/src/dataset";
import {
  generateDemonstration,
  plannedCampaign,
  TRUTH,
} from "../../../kernel-lib/src/demonstration";
import { code } from "../../../kernel-lib/src/provisions";

const SEEDS = [2026, 1, 2, 3];
/**
 * ln of the share at which FRP bars break in bare wedges: mean and SD behind TRUTH's mean and
 * coefficient of variation.
 */
const SD_LOG = Math.sqrt(Math.log1p(TRUTH.withinSeriesCov.rupture_at_grip ** 2));
const MEAN_LOG = Math.log(TRUTH.gripShare) - SD_LOG ** 2 / 2;
const FRACTILE = Math.exp(MEAN_LOG - 1.6448536269514722 * SD_LOG);

const campaigns = SEEDS.map((seed) => {
  const { tests } = generateDemonstration(seed);
  // The same specimens, draw by draw, in grips that break no bar.
  const spared = generateDemonstration(
    seed,
    plannedCampaign().map((series) => ({ ...series, poorGrip: false })),
  ).tests;
  return {
    seed,
    tests: TestTable.fromRows(tests),
    spared: new Map(spared.map((test) => [test.test_id, test])),
  };
});

describe("grips of the invented campaign against their truth", () => {
  it("breaks bars in bare wedges on FRP only, and names a grip for every test in tension", () => {
    for (const { tests } of campaigns) {
      const { groups, unused } = gripStrengths(tests);
      for (const { by, broke } of groups)
        if (by["grip"] !== TRUTH.grips.breaking || by["bar_material"] === "steel")
          expect(broke).toBe(0);
      expect(unused.map(({ reason }) => reason).sort()).toEqual([
        "excluded",
        "in shear: no bar in a grip",
      ]);
    }
  });
  it("finds median and scatter of the share at a break, with a reliable share below the true fractile", () => {
    const found = campaigns.map(({ tests }) => {
      const frp = tests.where(({ bar_material }) => bar_material !== "steel");
      return gripStrengths(frp, { by: ["grip"] }).groups.find(
        ({ by }) => by["grip"] === TRUTH.grips.breaking,
      )!;
    });
    for (const { law, broke } of found) {
      expect(Math.abs(Math.log(law!.median) - MEAN_LOG)).toBeLessThan(
        (3 * SD_LOG) / Math.sqrt(broke),
      );
      expect(Math.abs(Math.log(law!.sdLog / SD_LOG))).toBeLessThan(3 / Math.sqrt(2 * broke));
      expect(law!.seriesEffect).toBe("included");
    }
    // At 90 % confidence one bound in four above the fractile is no surprise (5 %: two or more).
    expect(found.filter(({ reliable }) => reliable!.share > FRACTILE).length).toBeLessThanOrEqual(
      1,
    );
  });
  it("predicts how many broken tests would have reached bond, and at which load", () => {
    let [expected, seen, variance, offset, n] = [0, 0, 0, 0, 0];
    for (const { tests, spared } of campaigns) {
      const found = betterGrip(compare(tests, code("aci318-19"), { confinedBondFactor: 0.75 }));
      expect(found.modes.reduce((sum, mode) => sum + mode.expected, 0)).toBeCloseTo(
        found.tests.length,
        9,
      );
      const bySeries = new Map<string, number>();
      for (const { testId, modes, median_kN } of found.tests) {
        const truth = spared.get(testId)!;
        const series = truth.series_id;
        expected += modes["bond"]!;
        if (truth.failure_mode === "bond") seen += 1;
        bySeries.set(
          series,
          (bySeries.get(series) ?? 0) + Math.sqrt(modes["bond"]! * (1 - modes["bond"]!)),
        );
        offset += Math.log(truth.peak_load_kN / median_kN);
        n += 1;
      }
      // The tests of a series share their error: at worst they all go the same way.
      for (const sd of bySeries.values()) variance += sd * sd;
    }
    expect(n).toBeGreaterThan(100);
    expect(Math.abs(seen - expected)).toBeLessThan(2 * Math.sqrt(variance));
    expect(Math.abs(offset / n)).toBeLessThan(0.05);
  });
  it("allows embedments at which the broken grip would have let at least nine tests in ten show their mode", () => {
    const { tests } = campaigns[0]!;
    const margins = gripMargins(
      gripStrengths(tests),
      compare(tests, code("aci318-19"), { confinedBondFactor: 0.75 }),
      "bond",
    ).margins;
    const wedges = margins.find(
      ({ grip }) => grip.by["grip"] === TRUTH.grips.breaking && grip.by["bar_material"] === "gfrp",
    )!;
    expect(wedges.reaches.map(({ size }) => size)).toEqual(["10", "13", "16", "19", "25"]);
    for (const { embedment_mm, diameter_mm, grip_kN } of wedges.reaches) {
      expect(embedment_mm! / diameter_mm).toBeGreaterThan(4);
      expect(embedment_mm! / diameter_mm).toBeLessThan(10);
      expect(grip_kN).toBeGreaterThan(0);
    }
    // Unconfined tests of those embedments in the campaign, by size: none broke in its grip.
    const limits = new Map(wedges.reaches.map(({ size, embedment_mm }) => [size, embedment_mm!]));
    const within = tests.where(
      (row) =>
        row.grip === TRUTH.grips.breaking &&
        row.bar_material === "gfrp" &&
        row.setup === "unconfined_tension" &&
        row.embedment_mm <= limits.get(row.bar_size ?? "")!,
    );
    expect(within.length).toBeGreaterThan(50);
    expect(
      within.texts("failure_mode").filter((mode) => mode === "rupture_at_grip").length /
        within.length,
    ).toBeLessThan(0.1);
  });
  it("has too few tests for some grips, and says so", () => {
    const { tests } = campaigns[0]!;
    const { margins } = gripMargins(
      gripStrengths(tests),
      compare(tests, code("aci318-19")),
      "bond",
    );
    const barred = margins.filter(({ reason }) => reason !== null);
    expect(barred.length).toBeGreaterThan(0);
    for (const { reading, reaches } of barred)
      expect([reading.includes("too few tests for a margin"), reaches.length]).toEqual([true, 0]);
  });
});
