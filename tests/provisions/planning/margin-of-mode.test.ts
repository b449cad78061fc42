import { describe, expect, it } from "vitest";
import { code, modeMargins } from "../../../kernel-lib/src/provisions";
import { createRandom } from "../../../kernel-lib/src/statistics";
import { inch, table } from "../specimens";
import { aci, at, marginsOf, strong } from "./strong-bar";

const mean = [code("ccd-1995"), code("uniform-bond-1998")];

describe("margin of a mode", () => {
  it("is the least of all others over the mode, less one", () => {
    const { wanted, rival, margin, rivals, rivalIndex } = marginsOf(strong, "bond");
    const [bond, cone, bar] = ["aci318-19/17.6.5", "aci318-19/17.6.2", "aci318-19/17.6.1.2"].map(
      (id) => at(inch(6), id),
    ) as [number, number, number];
    expect(wanted[0]).toBe(bond);
    expect(rival[0]).toBe(Math.min(cone, bar));
    expect(margin[0]).toBe(Math.min(cone, bar) / bond - 1);
    expect(rivals[rivalIndex[0]!]?.label).toBe("concrete breakout (aci318-19 17.6.2)");
  });
  it("counts the grip, and a change of the row", () => {
    const [bond = NaN] = marginsOf(strong, "bond").wanted;
    const gripped = marginsOf(strong, "bond", { gripLoad_N: 1.1 * bond });
    expect(gripped.rivals[gripped.rivalIndex[0]!]?.label).toBe("limit of the grip");
    expect(gripped.margin[0]).toBeCloseTo(0.1, 14);
    const changed = modeMargins(aci, table(strong), 0, "bond", { embedment_mm: inch(8) }, 1);
    const deeper = marginsOf({ ...strong, embedment_mm: inch(8) }, "bond");
    for (const key of ["wanted", "rival", "rivalIndex", "margin", "unjudged"] as const)
      expect(changed[key]).toEqual(deeper[key]);
  });
  it("takes the modes of several codes together; yield where the row states one, but not before rupture", () => {
    const steel = {
      ...strong,
      bar_material: "steel",
      bar_yield_MPa: 500,
      bar_strength_MPa: 640,
    } as const;
    const margins = modeMargins(mean, table(steel), 0, "concrete_breakout", {}, 1, {
      level: "expected",
    });
    expect(margins.rivals.map(({ label }) => label)).toEqual([
      "bond (uniform-bond-1998 bond)",
      "bar rupture (uniform-bond-1998 bar-rupture)",
      "yield of the bar (area times yield strength, no code equation)",
    ]);
    expect(margins.rivals[2]?.load[0]).toBe(199 * 500);
    expect(
      modeMargins(aci, table(steel), 0, "bar_rupture", {}, 1).rivals.map(({ mode }) => mode),
    ).not.toContain("yield");
    expect(marginsOf(steel, "yield").wanted[0]).toBe(199 * 500);
    // A mean model of breakout alone says nothing of the bar: area times strength stands in.
    expect(
      modeMargins(code("ccd-1995"), table(strong), 0, "concrete_breakout", {}, 1, {
        level: "expected",
      }).rivals[0]?.load[0],
    ).toBe(199 * 1200);
  });
  it("says what it cannot judge, and refuses options that no code offers", () => {
    expect(
      marginsOf({ ...strong, bond_strength_char_MPa: null }, "concrete_breakout").unjudged.join(),
    ).toContain("needs bond_strength_char_MPa");
    expect(() => marginsOf(strong, "bond", { options: { no_such: 1 } })).toThrow(
      'offers an option "no_such"',
    );
    expect(() =>
      modeMargins(aci, table(strong), 0, "bond", { embedment_mm: new Float64Array(2) }, 3),
    ).toThrow("changed to 2 values, expected 3");
  });
  it("of many draws is the margin of each, bit for bit", () => {
    const random = createRandom(71);
    const draws = Float64Array.from({ length: 50 }, () => 20 + 30 * random.uniform());
    const many = modeMargins(aci, table(strong), 0, "bond", { concrete_strength_MPa: draws }, 50);
    draws.forEach((concrete_strength_MPa, k) =>
      expect(many.margin[k]).toBe(
        marginsOf({ ...strong, concrete_strength_MPa }, "bond").margin[0],
      ),
    );
  });
});
