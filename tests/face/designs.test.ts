import { beforeAll, describe, expect, it } from "vitest";
import { openStudy } from "../../kernel-lib/src/face/open-study";
import { UnknownNameError } from "../../kernel-lib/src/face/results/names";
import type { Study } from "../../kernel-lib/src/face/study";
import { specimen } from "../../kernel-lib/src/face/tests/specimen";
import { code, compareDesigns, designedBar } from "../../kernel-lib/src/provisions";

let study: Study;
beforeAll(async () => {
  study = await openStudy({ keep: "none", data: "datasets/demo" });
});

/** The invented bar of `PARAPET_BAR`, stated column by column. */
const parapet = () =>
  specimen(
    {
      bar_material: "gfrp",
      bar_surface: "ribbed",
      bar_diameter_mm: 15.9,
      bar_area_mm2: 199,
      bar_strength_MPa: 840,
      bar_strength_specified_MPa: 840,
      installation: "post_installed",
      embedment_mm: 160,
      edge_1_mm: 150,
      cover_mm: 150 - 15.9 / 2,
      cracked: "yes",
      bond_strength_char_MPa: 6,
      bond_strength_uncracked_char_MPa: 10.5,
      concrete_strength_MPa: 30,
      concrete_strength_basis: "cylinder",
      setup: "unconfined_tension",
      action: "tension",
    },
    { keep: "none" },
  );

describe("compareDesigns", () => {
  it("gives the numbers of the provisions, with C_E of the guide for glass outdoors", () => {
    const designs = parapet().compareDesigns("aci318-19", "aci440.1r-15", {
      embedment_mm: [64, 480],
      at_mm: 160,
      load_kN: 40,
    });
    const known = compareDesigns(
      [code("aci318-19"), code("aci440.1r-15")],
      designedBar({ area: 199 }),
      0,
      {
        embedments: Array.from({ length: 105 }, (_, k) => 64 + (416 * k) / 104),
        at: 160,
        load_N: 40e3,
        options: { C_E: 0.7 },
      },
    );
    expect(designs.found!.ratio).toBe(known.ratio);
    expect(designs.found!.crossings).toEqual(known.crossings);
    const factors = designs.table("factors");
    // Law: the factors multiply to the ratio of the design capacities, which is the last row.
    const all = factors.column("factor").map(Number);
    expect(all.slice(0, -1).reduce((product, one) => product * one, 1)).toBeCloseTo(
      all.at(-1)!,
      12,
    );
    // Paper: bond by 17.6.5 at 160 mm, cracked, c_a = c_Na and above: the design capacity is 0.65
    // of the nominal one (phi of bond, condition B).
    const row = designs.table("capacities").rows.find(({ embedment }) => embedment === 160)!;
    expect(Number(row["design_1"]) / Number(row["nominal_1"])).toBeCloseTo(0.65, 12);
    expect(designs.table("embedments").length).toBe(3);
    expect(designs.answer).toMatch(/^specimen, ACI 318-19 Chapter 17 and ACI 440\.1R-15: At 160/);
    expect(designs.findings().text).toMatch(/cross at 390 mm.*no result is a design strength/s);
    expect(designs.figure().alt).toContain("390 mm");
  });

  it("says why there is no comparison", () => {
    const steel = study.where({ bar_material: "steel", action: "tension" });
    const none = steel.compareDesigns("aci318-19", "aci440.1r-15");
    expect(none.answer).toMatch(/no comparison of designs, since aci440\.1r-15 gives no design/);
    expect(none.table("factors").length).toBe(0);
    expect(none.figure().alt).toBe(none.answer);
    expect(none.findings()).toHaveLength(1);
    const shear = study.where({ action: "shear" }).compareDesigns("aci318-19", "aci440.1r-15");
    expect(shear.answer).toMatch(/not loaded in tension/);
    const nobody = study.where({ test_id: "nobody" });
    expect(nobody.compareDesigns("aci318-19", "aci440.1r-15").answer).toMatch(/No row meets/);
  });

  it("refuses embedments that do not rise and names that there are not", () => {
    const bar = parapet();
    const ask = (options: object) => () => bar.compareDesigns("aci318-19", "aci440.1r-15", options);
    expect(ask({ embedment_mm: [480, 64] })).toThrow(RangeError);
    expect(ask({ at_mm: 0 })).toThrow(/above 0/);
    expect(ask({ options: { C_R: 1 } })).toThrow(UnknownNameError);
    expect(ask({ exposure: "interior" })().found!.ratio).toBeGreaterThan(1);
  });
});

describe("the first of the rows chosen", () => {
  it("explains the first row, as by its name", () => {
    const near = study.where({ setup: "unconfined_tension", layout: "single near edge" });
    const [first] = near.column("test_id");
    const found = near.explain("aci318-19", { mode: "bond" });
    expect(found.trace).toEqual(study.explain(String(first), "aci318-19", { mode: "bond" }).trace);
    expect(found.answer).toContain(`${first} (the first of ${near.length} rows chosen)`);
    const none = study.where({ test_id: "nobody" }).explain("aci318-19");
    expect(none.answer).toMatch(/No row meets/);
    expect(none.table().rows).toEqual([]);
    expect(none.findings()).toHaveLength(1);
  });

  it("draws every row chosen on the map, and where the mode changes along one number", () => {
    const bars = study.where({ bar_material: "gfrp", bar_size: "16", setup: "unconfined_tension" });
    const over = { embedment_mm: [60, 360], concrete_strength_MPa: [16, 60] } as const;
    const map = bars.governing("aci318-19", over).figure();
    expect(map.data.at(-1)!["x"]).toHaveLength(bars.length);
    const along = study.where({ test_id: "IH-075-1" });
    const line = along.governing("aci318-19", { concrete_strength_MPa: [16, 60] });
    // Paper: as the test "explains a mode" has it, bond is 65.6 kN; the mark stands on that line.
    expect(line.figure().data.at(-1)).toMatchObject({ name: "bond governs from 22.2 MPa" });
    expect(Number((line.figure().data.at(-1)!["y"] as number[])[0])).toBeCloseTo(65.56, 2);
  });
});
