import { describe, expect, it } from "vitest";
import { compare } from "../../../kernel-lib/src/comparison";
import { TestTable, type TestRowInput } from "../../../kernel-lib/src/dataset";
import { evidenceCells, planTests, specimenFor } from "../../../kernel-lib/src/proposals";
import { modesNotComputed } from "../../../kernel-lib/src/proposals/campaign/not-computed";
import { code, predict } from "../../../kernel-lib/src/provisions";
import { fitCensored, normal } from "../../../kernel-lib/src/statistics";
import { testPlanTable } from "../../../kernel-lib/src/tables";
import { PLAIN, table } from "../../provisions/specimens";
import { expectSaid } from "../../says";
import { aci, comparison, rows, shearComparison, tests, twoSeries } from "./campaign-tests";

describe("specimenFor", () => {
  it("has the probability of two log-normal strengths where only two modes are free", () => {
    const found = specimenFor(comparison, "bond", rows[1]!, {
      embedments: [8],
      simulations: 20_000,
      seed: 5,
    })!;
    const candidate = table({
      ...rows[1]!,
      setup: "unconfined_tension",
      embedment_mm: found.embedment_mm,
      member_thickness_mm: 400,
    });
    const capacity = (mode: string): number =>
      Math.min(
        ...predict(aci, candidate, { level: "nominal" })
          .columns.filter(({ provision }) => provision.modes[0] === mode)
          .map(({ capacity: [force = NaN] }) => force)
          .filter(Number.isFinite),
      );
    const law = (mode: string) => {
      const own = comparison.evidence.filter((one) => one.mode === mode);
      const fit = fitCensored({
        values: own.map(({ ratio }) => ratio),
        censored: own.map(({ bound }) => bound),
        distribution: "lognormal",
      });
      if (fit.status !== "ok") throw new Error(fit.reason);
      return fit;
    };
    const [bond, cone] = [law("bond"), law("concrete_breakout")];
    const distance =
      Math.log(capacity("concrete_breakout")) +
      cone.location -
      Math.log(capacity("bond")) -
      bond.location;
    const expected = normal().cdf(distance / Math.hypot(bond.scale, cone.scale));
    expect(Math.abs(found.probability - expected)).toBeLessThan(3 * Math.sqrt(0.25 / 20_000));
    expect(
      found.rival === "concrete breakout" ||
        found.rival === "concrete_breakout" ||
        expected > 0.9999,
    ).toBe(true);
  });
  it("takes the specimen of least load that reaches the wanted probability, else the most probable and says so", () => {
    const far = specimenFor(comparison, "concrete_breakout", rows[0]!, {
      wanted: 0.999999,
      embedments: [15],
      spacings: [],
      seed: 5,
    })!;
    expect(far.reached).toBe(false);
    const best = specimenFor(comparison, "bond", rows[0]!, { wanted: 0.5, seed: 5 })!;
    expect(best.reached).toBe(true);
    expect(
      specimenFor(comparison, "bond", rows[0]!, {
        wanted: 0.5,
        embedments: [best.embedment_mm / 15.875],
        seed: 5,
      })!.load_kN,
    ).toBeGreaterThanOrEqual(best.load_kN - 1e-9);
    expect(specimenFor(comparison, "splitting", rows[0]!, { seed: 5 })).toBeNull();
  });
});

describe("a mode that cannot be computed", () => {
  const chosen = (strength: number | null) => {
    const data = shearComparison(strength);
    return specimenFor(data, "pryout", data.tests.row(0), {
      embedments: [4],
      spacings: [],
      seed: 6,
    })!;
  };
  it("is named, and what governs is then an upper bound that reaches nothing", () => {
    const [blank, weak] = [chosen(null), chosen(90)];
    expect(blank.notComputed).toEqual([
      { mode: "bar_shear", reason: "bar_shear_strength_MPa is blank" },
    ]);
    expect(blank).toMatchObject({ probability: 1, reached: false });
    expect(weak.notComputed).toEqual([]);
    expect(weak.probability).toBeLessThan(0.2);
    expect(weak.rival).toBe("bar_shear");
  });
  it("is named in the reading and in the table, which then state no probability and no number of specimens", () => {
    const [line] = planTests(twoSeries(shearComparison(null)), {
      materials: ["gfrp"],
      modes: ["pryout"],
      seed: 1,
    });
    expectSaid(line!.reading, "bar shear", "bar_shear_strength_MPa is blank");
    expectSaid(line!.reading, /at least 9 specimens/, ">99 %", "upper bound");
    expect(line!.specimens).toBeNull();
    expect(testPlanTable([line!], { id: "plan", title: "Plan" }).rows[0]).toMatchObject({
      governs: null,
      specimens: null,
      not_computed: "bar shear not computed: bar_shear_strength_MPa is blank",
    });
  });
  it("is one that the code has no provision for, too", () => {
    const guide = code("aci440.11-22");
    const one: TestRowInput = { ...PLAIN, action: "shear", setup: "direct_shear" };
    const modes = (row: TestRowInput): string[] =>
      modesNotComputed(predict(guide, TestTable.fromRows([row]), { level: "nominal" }), row, 0).map(
        ({ mode, reason }) => `${mode}: ${reason}`,
      );
    const none = (mode: string): string =>
      `${mode}: aci440.11-22 has no provision for it at the nominal level`;
    expect(modes(one)).toEqual([none("bar_shear"), none("pryout")]);
    expect(modes({ ...one, edge_1_mm: 100 })).toEqual([
      none("bar_shear"),
      none("pryout"),
      none("concrete_edge_breakout"),
    ]);
  });
  it("is the bar as well, where its strength is blank", () => {
    const strong = specimenFor(
      comparison,
      "bond",
      { ...rows[0]!, bar_strength_MPa: null, bar_strength_specified_MPa: null },
      { embedments: [8], seed: 5 },
    )!;
    expect(strong.notComputed.map(({ mode }) => mode)).toEqual(["bar_rupture"]);
    expect(strong.notComputed[0]!.reason).toMatch(/bar_strength\w*_MPa is blank/);
  });
});

describe("planTests", () => {
  const plan = planTests(comparison, {
    materials: ["gfrp", "bfrp"],
    modes: ["bond"],
    seed: 1,
    simulations: 100,
  });
  it("has a line for every cell, tested or not, and says what it rests on", () => {
    expect(
      plan.map(({ cell }) => [cell.material, cell.size, cell.group?.n ?? 0, cell.basis]),
    ).toEqual([
      ["gfrp", "16", 11, "own tests"],
      ["gfrp", "25", 1, "tests of the material"],
      ["bfrp", "16", 0, "tests of the mode"],
      ["bfrp", "25", 0, "tests of the mode"],
    ]);
    const lacking = plan[1]!;
    expect(lacking.cell.group?.verdict).toBe("too few tests");
    expect(lacking.settle?.further).toBeGreaterThan(0);
    expect(lacking.specimens).toBeGreaterThanOrEqual(lacking.settle!.further!);
    expect(lacking.specimens! % 3).toBe(0);
    expectSaid(lacking.reading, `${lacking.settle!.further} further failures`, /\d series/);
    expectSaid(lacking.reading, `${lacking.specimens} specimens`, /embedded \d+ mm/);
    expect(plan[2]!.specimen).toBeNull();
  });
  it("takes as settled only a verdict that is reached, and then plans nothing", () => {
    const verdicts = plan.map(({ cell, finding, specimens }) => [
      cell.group?.verdict ?? "no tests",
      finding,
      specimens === 0,
    ]);
    for (const [verdict, finding, none] of verdicts) {
      expect(finding === "settled", String(verdict)).toBe(
        verdict === "meets" || verdict === "falls short",
      );
      expect(none).toBe(finding === "settled");
    }
    expect(verdicts[0]).toEqual(["undecided", "tests needed", false]);
    const [met] = planTests(shearComparison(90), {
      materials: ["gfrp"],
      modes: ["pryout"],
      seed: 1,
    });
    expect(met).toMatchObject({ finding: "settled", specimens: 0, settle: null });
    expectSaid(met!.reading, "pryout", "GFRP", "size 16", "meets", "12 failures", "4 series");
    expectSaid(met!.reading, /\bsettled\b/i);
  });
  it("says what keeps a verdict open however many tests are added", () => {
    const unnamed = TestTable.fromRows(
      Array.from({ length: tests.length }, (_, k) => ({
        ...tests.row(k),
        series_id: k === 1 ? "" : tests.row(k).series_id,
      })),
    );
    const data = compare(unnamed, aci, { level: "nominal", lowerBounds: "stopped early" });
    const [line] = planTests(data, {
      materials: ["gfrp"],
      modes: ["bond"],
      seed: 1,
      simulations: 40,
    });
    expect(line).toMatchObject({ finding: "cannot be settled", settle: null });
    expectSaid(line!.reading, /cannot be settled/i, "1 of 11 tests", "series_id");
  });
  it("is the same again and makes a table", () => {
    expect(
      planTests(comparison, {
        materials: ["gfrp", "bfrp"],
        modes: ["bond"],
        seed: 1,
        simulations: 100,
      }),
    ).toEqual(plan);
    expect(testPlanTable(plan, { id: "plan", title: "Plan" }).rows).toHaveLength(4);
  });
  it("plans from nothing by a first series only", () => {
    const few = {
      ...comparison,
      evidence: comparison.evidence.filter(({ mode }) => mode === "bond").slice(0, 2),
    };
    expect(evidenceCells(few, ["gfrp"])[0]).toMatchObject({ model: null, basis: "nothing" });
    const [line] = planTests(few, { materials: ["gfrp"], seed: 1 });
    expect(line).toMatchObject({ finding: "no model", settle: null });
    expectSaid(line!.reading, "fewer than 3 series");
  });
});
