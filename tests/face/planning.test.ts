import { beforeAll, describe, expect, it } from "vitest";
import { openStudy } from "../../kernel-lib/src/face/open-study";
import { UnknownNameError } from "../../kernel-lib/src/face/results/names";
import type { Study } from "../../kernel-lib/src/face/study";
import { specimen } from "../../kernel-lib/src/face/tests/specimen";
import type { Tests } from "../../kernel-lib/src/face/tests/tests";
import {
  code,
  elasticities,
  embedmentForMode,
  governingMap,
} from "../../kernel-lib/src/provisions";

let study: Study;
let one: Tests;
beforeAll(async () => {
  study = await openStudy({ keep: "none", data: "datasets/demo" });
  one = study.where({ test_id: "IH-075-1" });
});

const bar = (): Tests =>
  specimen(
    {
      bar_material: "gfrp",
      bar_diameter_mm: 16,
      bar_strength_MPa: 900,
      embedment_mm: 160,
      installation: "post_installed",
      bond_strength_char_MPa: 8,
      cracked: "no",
      concrete_strength_MPa: 30,
      concrete_strength_basis: "cylinder",
      setup: "unconfined_tension",
      action: "tension",
    },
    { keep: "none" },
  );

describe("governing", () => {
  // Paper, ACI 318-19 from memory, one bar away from edges, uncracked: breakout (17.6.2.2)
  // 17 x 1.4 sqrt(f'c) h_ef^1.5 lb; bond (17.6.5.2.1) tau pi d h_ef; tau 10.5 MPa, d 15.9 mm.
  const bond = (h_mm: number): number => 10.5 * Math.PI * 15.9 * h_mm;
  const strengthAt = (h_mm: number): number =>
    (bond(h_mm) / 4.4482216152605 / (17 * 1.4 * (h_mm / 25.4) ** 1.5)) ** 2 * 0.006894757293168;

  it("says how the mode changes with concrete strength and embedment", () => {
    const found = one.governing("aci318-19", {
      concrete_strength_MPa: [20, 60],
      embedment_mm: [60, 360],
    });
    expect(strengthAt(125)).toBeCloseTo(22.18, 2);
    expect(found.answer).toContain(
      "at embedment 125 mm, the governing mode changes with increasing concrete strength from concrete breakout to bond at 22.2 MPa",
    );
    // Rupture by area times specified strength: 199 mm2 x 714 MPa = bond at 270.9 mm.
    expect(found.answer).toContain("from bond to bar rupture at 271 mm");
    const changes = found.table("changes");
    const at = (words: string, mode: string): number =>
      Number(
        changes.rows.find(
          (row) => row["at"] === words && row["mode"] === mode && row["along"] !== "Embedment (mm)",
        )?.["to"],
      );
    expect(at("embedment 125 mm (the specimen's)", "concrete breakout")).toBeCloseTo(
      strengthAt(125),
      6,
    );
    expect(at("embedment 60 mm", "concrete breakout")).toBeCloseTo(strengthAt(60), 6);
    expect(found.findings().text).toMatch(/outside a stated limit: 17\.3\.3: .*4 to 20 diameters/);
  });

  it("draws the map of the provisions, with the test in it", () => {
    const figure = one
      .governing("aci318-19", { concrete_strength_MPa: [20, 60], embedment_mm: [60, 360] })
      .figure("map");
    const area = figure.data[0]!;
    const [x, y] = [area["x"], area["y"]] as [number[], number[]];
    expect([x[0], x.at(-1), y[0], y.at(-1)]).toEqual([20, 60, 60, 360]);
    const map = governingMap(code("aci318-19"), one.chosen.table, 0, {
      x: { column: "concrete_strength_MPa", values: x },
      y: { column: "embedment_mm", values: y },
    });
    const words = [...new Set(map.governing.flat())];
    expect(area["z"]).toEqual(map.governing.map((row) => row.map((mode) => words.indexOf(mode))));
    expect(figure.data.some(({ name }) => name === "tests (n = 1)")).toBe(true);
    expect(figure.invented).toBe(true);
    expect(figure.caption).toMatch(/IH-075-1 by ACI 318-19/);
  });

  it("takes one variable alone and draws every mode along it", () => {
    const found = one.governing("aci318-19", { embedment_mm: [60, 360] });
    expect(found.table("changes").column("mode")).toEqual(["bond", "bar rupture"]);
    expect(found.figure("map").data.map(({ name }) => name)).toEqual(
      expect.arrayContaining(["concrete breakout, 17.6.2", "bond, 17.6.5"]),
    );
  });

  it("lets the area follow the diameter", () => {
    const range = { bar_diameter_mm: [10, 20] } as const;
    const found = one.set({ embedment_mm: 400 }).governing("aci318-19", range);
    const [row] = found.table("changes").rows;
    // Rupture of a 10 mm bar: 714 MPa times the area of the circle.
    expect(row!["capacity_from_kN"]).toBeCloseTo((714 * Math.PI * 25) / 1000, 9);
  });

  it("rejects what is no range or no number", () => {
    expect(() => one.governing("aci318-19", {})).toThrow(/one or two/);
    expect(() => one.governing("aci318-19", { embedment_mm: [90, 60] })).toThrow(/rises/);
    expect(() => one.governing("aci318-19", { embedment_mm: [0, 60] })).toThrow(/above 0/);
    expect(() => one.governing("aci318-19", { embedmet_mm: [60, 90] } as object)).toThrow(
      /did you mean embedment_mm/,
    );
  });
});

describe("sensitivity", () => {
  it("gives the elasticities of the provisions", () => {
    const found = one.sensitivity("aci318-19");
    const all = elasticities(code("aci318-19"), one.chosen.table, 0);
    const by = all.governing!.by.filter(({ elasticity }) => elasticity !== 0);
    expect(found.table().column("variable")).toEqual(
      expect.arrayContaining(["embedment", "bar diameter"]),
    );
    expect(found.answer).toMatch(/bond \(17\.6\.5\) governs; .*\+1 % with embedment/);
    const values = found.figure("bars").data[0]!["x"] as number[];
    expect([...values].sort()).toEqual(by.map(({ elasticity }) => elasticity).sort());
  });

  it("says which of several rows it takes", () => {
    const found = study.where({ series_id: "IH-075" }).sensitivity("aci318-19");
    expect(found.answer).toMatch(/^IH-075-1 \(the first of \d+ rows chosen\)/);
  });
});

describe("embedmentFor", () => {
  it("finds the embedments at which bond governs by 20 %, as the provisions do", () => {
    const found = bar().embedmentFor("bond", "aci318-19", { margin: 0.2, grip_kN: 120 });
    const room = embedmentForMode(code("aci318-19"), bar().chosen.table, 0, "bond", {
      above: 0.2,
      gripLoad_N: 120_000,
    });
    expect(found.table().column("from")).toEqual(room.intervals.map(({ from }) => from));
    // Paper: the grip is 1.2 times bond, pi x 16 x 8 x h, at h = 100 000 / 402.1 = 248.7 mm.
    expect(found.table().column("to")[0]).toBeCloseTo(120_000 / 1.2 / (Math.PI * 16 * 8), 9);
    expect(found.findings().text).toMatch(/limit of the grip is 1\.2 times/);
    expect(found.findings().text).toMatch(/scatter can reverse the order/);
  });

  it("says why there is none, and rejects what makes no sense", () => {
    expect(bar().embedmentFor("bond", "aci318-19", { margin: 9 }).answer).toMatch(/None: /);
    expect(bar().embedmentFor("bond", "aci318-19", { margin: 9 }).table().rows).toEqual([]);
    expect(() => bar().embedmentFor("bnd" as "bond", "aci318-19")).toThrow(UnknownNameError);
    expect(() => bar().embedmentFor("bond", "aci318-19", { grip_kN: 0 })).toThrow(/above 0 in kN/);
    expect(() => bar().embedmentFor("bond", "aci318-19", { margin: -1 })).toThrow(RangeError);
  });
});

describe("no rows", () => {
  it("have an answer that says so, an empty table and an empty figure", () => {
    const none = study.where({ test_id: "nobody" });
    const map = none.governing("aci318-19", { embedment_mm: [60, 90], edge_1_mm: [40, 90] });
    const line = none.governing("aci318-19", { embedment_mm: [60, 90] });
    const [rates, depths] = [none.sensitivity("aci318-19"), none.embedmentFor("bond", "aci318-19")];
    for (const found of [map, line, rates, depths]) {
      expect(found.answer).toMatch(/No row meets the conditions/);
      expect(found.findings().length).toBeGreaterThan(0);
      expect(found.table().rows).toEqual([]);
    }
    for (const found of [map, line, rates])
      expect(found.figure().caption).toMatch(/No row meets the conditions/);
  });
});
