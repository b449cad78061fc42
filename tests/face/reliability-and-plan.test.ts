import { beforeAll, describe, expect, it } from "vitest";
import { groupRatios } from "../../kernel-lib/src/comparison";
import type { Comparison } from "../../kernel-lib/src/face/comparison/comparison";
import type { Groups } from "../../kernel-lib/src/face/comparison/groups";
import { openStudy } from "../../kernel-lib/src/face/open-study";
import type { Study } from "../../kernel-lib/src/face/study";
import {
  calibrateEn1990,
  factorAlongVariable,
  groupReliability,
  planTests,
  simpleRules,
  variationOfProduct,
} from "../../kernel-lib/src/proposals";
import { code } from "../../kernel-lib/src/provisions";

let study: Study;
let groups: Groups<"mode", Comparison>;
beforeAll(async () => {
  study = await openStudy({ keep: "none" });
  groups = study.compare("aci318-19").where({ bar_class: "frp" }).by("mode");
}, 120_000);

describe("reliability", () => {
  it("has the index of the room, and a strength reduction for the target", () => {
    const index = groups.reliability({ target: 3.5, loads: "nowak-2003", materialCov: 0.12 });
    const room = groupReliability(study.data.tests, code("aci318-19"), {
      material: { bias: 1, cov: 0.12 },
    });
    const rows = index.table("strength reduction").rows;
    expect(rows.length).toBe(groups.length);
    for (const group of groups.ratioGroups) {
      const row = rows.find(({ group: label }) => label === group.label)!;
      const indices = room.indexOf(group)?.map((one) => one.index) ?? null;
      expect(row["least"]).toBe(indices === null ? null : Math.min(...indices));
      expect(row["present"]).toBe(room.reductionOf(group));
      // The index falls as the strength reduction rises, so that they stand on opposite sides.
      if (row["least"] !== null && row["required"] !== null)
        expect(Number(row["least"]) < 3.5).toBe(Number(row["present"]) > Number(row["required"]));
    }
    expect(index.answer).toMatch(/least index below the target of 3\.5/);
    expect([...index.findings()]).toHaveLength(groups.length);
    // Every share at which the curve of the figure lies below the target is in the finding.
    const edge = [...index.findings()].find((one) => one.startsWith("concrete edge breakout"))!;
    const ranges = [...edge.matchAll(/(\d+) % to (\d+) %(?= and|\.$)/g)].map(([, a, b]) => [
      Number(a),
      Number(b),
    ]);
    const curve = index
      .figure("index")
      .data.find((one) => (one["name"] as string).startsWith("concrete edge breakout"))!;
    const [x, y] = [curve["x"] as number[], curve["y"] as number[]];
    x.forEach((share, k) => {
      const percent = Math.round(100 * share);
      const within = ranges.some(([a, b]) => percent >= a! && percent <= b!);
      expect(within).toBe(y[k]! < 3.5);
    });
    expect(index.figure("index").data.length).toBeGreaterThan(0);
    expect(index.figure("sensitivity").data.length).toBeGreaterThan(0);
    const methods = index.table("methods").rows.filter((row) => row["group"] === "bond");
    expect(methods.map((row) => row["method"])).toHaveLength(4);
    expect(Math.abs(Number(methods[1]!["index"]) - Number(methods[2]!["index"]))).toBeLessThan(0.1);
    // The squares of the sensitivity factors add to 1 (first-order reliability).
    const shares = index.table("sensitivity").rows.filter((row) => row["group"] === "bond");
    expect(shares.reduce((sum, row) => sum + Number(row["share"]), 0)).toBeCloseTo(1, 9);
    // C_P = (1 + 1/n) m/(m - 2), m = n - 1: 1.944 for 6 tests (AISI S100 K2.1, from memory).
    const size = index.table("sample size").rows.find((row) => row["group"] === "bond")!;
    expect(size["correction_small"]).toBeCloseTo(1.944, 3);
    expect(Number(size["phi_small"])).toBeLessThan(Number(size["phi"]));
  }, 60_000);

  it("takes all tests of a group together, and a scatter of the material by mode", () => {
    const edge = groups.group({ mode: "concrete_edge_breakout" }).rows.by("mode");
    const cov = { concrete_edge_breakout: 0.06 };
    const rows = (materialCov: typeof cov | number): unknown =>
      edge.reliability({ materialCov, scatterOf: "all tests" }).table().rows;
    expect(rows(cov)).toEqual(rows(0.06));
    const ratios = edge.ratioGroups[0]!.evidence.map(({ ratio }) => ratio);
    // Without lower bounds the log-normal by maximum likelihood has the moments of ln(ratio).
    const logs = ratios.map(Math.log);
    const mean = logs.reduce((sum, one) => sum + one, 0) / logs.length;
    const variance = logs.reduce((sum, one) => sum + (one - mean) ** 2, 0) / logs.length;
    const [row] = edge.reliability({ scatterOf: "all tests" }).table().rows;
    expect(row!["professional"]).toBeCloseTo(Math.sqrt(Math.exp(variance) - 1), 2);
    expect(row!["bias"]).toBeCloseTo(Math.exp(mean + variance / 2), 2);
    expect(() => edge.reliability({ scatterOf: "all" as never })).toThrow(/all tests/);
    expect(() => edge.reliability({ materialCov: { bond: 8 } })).toThrow(/of bond is 8/);
  });

  it("refuses numbers that cannot be used", () => {
    expect(() => groups.reliability({ target: 9 })).toThrow(/up to 8/);
    expect(() => groups.reliability({ loads: "nowak" as never })).toThrow(/nowak-2003/);
    expect(() => groups.reliability({ materialCov: 12 })).toThrow(/materialCov is 12/);
    const none = study.where({ test_id: "none" }).compare("aci318-19").by("mode").reliability();
    expect(none.answer).toContain("No reliability index");
    expect(none.table().rows).toEqual([]);
    expect(() => none.figure()).not.toThrow();
  });
});

describe("calibration to EN 1990", () => {
  it("has the numbers of the room", () => {
    const edge = groups.group({ mode: "concrete_edge_breakout" }).rows.by("mode");
    const [group] = edge.ratioGroups;
    const found = edge.calibrate({ materialCov: 0.06, fabricationCov: 0.05 });
    const room = calibrateEn1990({
      experimental: group!.evidence.map(({ load }) => load),
      theoretical: group!.evidence.map(({ capacity }) => capacity),
      budget: variationOfProduct([
        { name: "material", cov: 0.06 },
        { name: "fabrication", cov: 0.05 },
      ]),
    });
    expect(found.table("factors").rows[0]).toMatchObject({
      b: room.terms!.b,
      scatter: room.terms!.cov,
      rk: room.characteristicFactor,
      rd: room.designFactor,
    });
    expect(found.table("steps").rows.map((row) => row["symbol"])).toContain("γ_M");
    expect(found.figure("trends", { x: "embedment_mm" }).data.length).toBeGreaterThan(0);
    expect(() => found.figure("trends", { x: "embedment" })).toThrow(/embedment_mm/);
    expect(edge.calibrate().answer).toContain("Annex D.8");
    expect(() => edge.calibrate({ lowerBounds: "use" as never })).toThrow(/used/);
    const none = study.where({ test_id: "none" }).compare("aci318-19").by("mode").calibrate();
    expect(none.answer).toContain("No calibration");
    expect(none.table().rows).toEqual([]);
    expect(() => none.figure()).not.toThrow();
  });
});

describe("a rule along the bar diameter", () => {
  it("has the rules of the room and drafts one", () => {
    const edge = study
      .compare("aci318-19")
      .mode("concrete_edge_breakout")
      .where({ bar_material: "gfrp" })
      .by("bar_material");
    const rules = edge.sizeRule("bar_diameter_mm");
    const { evidence } = edge.ratioGroups[0]!;
    const { tests } = study.data;
    const along = factorAlongVariable({
      ratios: evidence.map(({ ratio }) => ratio),
      lowerBounds: evidence.map(({ bound }) => bound),
      series: evidence.map(
        ({ row }) => edge.comparison.parts[0]!.pairs.tests.text(row, "series_id") ?? "",
      ),
      x: evidence.map(({ row }) =>
        Number(
          (edge.comparison.parts[0]!.pairs.tests.number(row, "bar_diameter_mm") / 25.4).toPrecision(
            6,
          ),
        ),
      ),
      seed: study.seed,
    });
    expect(tests.length).toBe(study.length);
    const simple = simpleRules(along, "d_a");
    expect(rules.table().rows.map((row) => [row["rule"], row["formula"]])).toEqual(
      simple.map(({ kind, formula }) => [kind, formula]),
    );
    expect(rules.figure("factor against size").data.length).toBeGreaterThan(0);
    expect(rules.answer).toContain("GFRP");
    const proposal = rules.propose("aci318-19/17.7.2", "two-step");
    expect(proposal.changes[0]).toMatchObject({
      factor: simple.find(({ kind }) => kind === "two-step")!.formula,
      where: "gfrp == 1",
      alsoChanges: ["aci318-19/17.7.2.1(c)-edge2", "aci318-19/17.7.2.1(c)-edge4"],
    });
    expect(proposal.draft().text).toContain("17.7.2");
    expect(() => rules.propose("aci318-19/17.7.3", "two-step")).toThrow(/not judged by/);
    expect(() => rules.propose("aci318-19/17.7.2", "two step" as never)).toThrow(/two-step/);
    expect(() => edge.sizeRule("bar_diameter" as never)).toThrow(/bar_diameter_mm/);
    const few = edge.group({ bar_material: "afrp" }).rows.by("bar_material");
    expect(few.sizeRule("bar_diameter_mm").answer).toContain("No rule");
    expect(few.sizeRule("bar_diameter_mm").propose("aci318-19/17.7.2", "linear").answer).toContain(
      "No change",
    );
    expect(() => few.sizeRule("bar_diameter_mm").figure()).not.toThrow();
  }, 60_000);
});

describe("leaving out", () => {
  it("judges each group again without each study", () => {
    const edge = study.compare("aci318-19").mode("concrete_edge_breakout").by("bar_material");
    const left = edge.leaveOut("study_id");
    const { pairs } = edge.comparison.parts[0]!;
    expect(left.table().rows.length).toBeGreaterThan(0);
    for (const row of left.table().rows) {
      const rest = {
        ...pairs,
        notJudged: [],
        evidence: pairs.evidence.filter(
          (one) => pairs.tests.text(one.row, "study_id") !== row["left"],
        ),
      };
      const again = groupRatios(rest, ["bar_material"]).find(
        ({ label }) => label === row["group"],
      )!;
      expect(row["rest"]).toBe(again.lower);
      expect(row["verdict_rest"]).toBe(again.verdict);
    }
    expect(left.answer).toMatch(/verdict without any one study/);
    expect(edge.leaveOut("bar_size").table().rows.length).toBeGreaterThan(2);
    expect(edge.leaveOut("bar_size").figure().data.length).toBeGreaterThan(0);
    expect(edge.leaveOut("laboratory").answer).toContain("Nothing to leave out");
    expect(() => edge.leaveOut("study" as never)).toThrow(/study_id/);
  }, 60_000);
});

describe("the next campaign", () => {
  it("is the plan of the room, seeded by the study", () => {
    const pryout = study
      .compare("aci318-19")
      .mode("pryout")
      .where({ bar_material: "gfrp" })
      .by("mode", "bar_material", "bar_size");
    const settings = { perSeries: 3, simulations: 10, most: 12 };
    const plan = pryout.plan({ ...settings, probability: 0.8, materials: ["gfrp"] });
    // The model errors are those of every mode, though one mode is planned.
    const room = planTests(pryout.comparison.parts[0]!.pairs, {
      errorsFrom: study.compare("aci318-19").parts[0]!.pairs,
      ...settings,
      wanted: 0.8,
      materials: ["gfrp"],
      modes: ["pryout"],
      seed: study.seed,
    });
    expect(plan.planned.map(({ reading }) => reading)).toEqual(room.map(({ reading }) => reading));
    expect(plan.table("plan").rows.length + plan.table("settled").rows.length).toBe(room.length);
    expect(plan.answer).toMatch(/cells? of mode, material and size: \d+ settled/);
    expect(plan.figure("tests needed").alt).toContain("Further failures needed");
    expect(() => pryout.plan({ materials: ["gfrb" as never] })).toThrow(/gfrp/);
    expect(() => pryout.plan({ probability: 80 })).toThrow(/between 0 and 1/);
    expect(() => pryout.plan({ perSeries: 2.5 })).toThrow(/whole number/);
    const none = study.where({ test_id: "none" }).compare("aci318-19").by("mode").plan();
    expect(none.answer).toContain("No plan");
    expect(none.table().rows).toEqual([]);
    expect(() => none.figure()).not.toThrow();
  }, 120_000);
});
