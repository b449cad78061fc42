import { describe, expect, it } from "vitest";
import {
  code,
  embedmentForMode,
  governing,
  governingMap,
  modeMargins,
  predict,
  type EmbedmentForMode,
  type FailureMode,
  type ModeMargins,
  type PlanningSettings,
} from "../../../kernel-lib/src/provisions";
import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import { createRandom } from "../../../kernel-lib/src/statistics";
import { capacity, inch, randomRows, table } from "../specimens";
import { expectSaid } from "../../says";

const aci = code("aci318-19");
const mean = [code("ccd-1995"), code("uniform-bond-1998")];
const strong = {
  bar_strength_MPa: 1200,
  member_thickness_mm: 600,
  extra: { bond_strength_mean_MPa: 16 },
} as const;
const at = (embedment_mm: number, id: string, row: object = {}): number =>
  capacity(aci, id, { ...strong, ...row, embedment_mm });

/** Margins of one row as it stands. */
const marginsOf = (
  row: Partial<TestRowInput>,
  mode: FailureMode,
  settings: PlanningSettings = {},
): ModeMargins => modeMargins(aci, table(row), 0, mode, {}, 1, settings);

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

/**
 * The ends that are where two loads meet keep the equation to 1e-9; inside the margin holds, just
 * outside it does not.
 */
function holdsAtItsEnds(answer: EmbedmentForMode, margin: (h: number) => number): number {
  let met = 0;
  for (const { from, to, fromBecause, toBecause } of answer.intervals) {
    expect(margin(Math.sqrt(from * to))).toBeGreaterThanOrEqual(answer.above);
    for (const [end, why, out] of [
      [from, fromBecause, 1 - 1e-6],
      [to, toBecause, 1 + 1e-6],
    ] as const) {
      if (!why.startsWith("there ")) continue;
      met += 1;
      expect(Math.abs((1 + margin(end)) / (1 + answer.above) - 1)).toBeLessThan(1e-9);
      expect(margin(end * out)).toBeLessThan(answer.above);
    }
  }
  return met;
}

describe("embedment for a mode", () => {
  it("far from edges: the ends are where the power laws cross, worked by hand", () => {
    // Breakout k h^1.5 and bond t h: bond is 1 + x times breakout at h = (t / (k (1 + x)))^2.
    const [k, t] = [at(100, "aci318-19/17.6.2") / 100 ** 1.5, at(100, "aci318-19/17.6.5") / 100];
    const cone = embedmentForMode(aci, table(strong), 0, "concrete_breakout", {
      above: 0.1,
      from: 20,
      beyondLimits: true,
    });
    expect(cone.intervals).toHaveLength(1);
    expect(cone.intervals[0]?.from).toBe(20);
    expect(cone.intervals[0]?.to).toBeCloseTo((t / (k * 1.1)) ** 2, 9);
    expectSaid(cone.intervals[0]?.toBecause, "bond", "aci318-19 17.6.5", "1.1 times");
    const grip = 90e3;
    const bond = embedmentForMode(aci, table(strong), 0, "bond", {
      above: 0.25,
      gripLoad_N: grip,
      from: 20,
      to: 400,
      beyondLimits: true,
    });
    expect(bond.intervals).toHaveLength(1);
    expect(bond.intervals[0]?.from).toBeCloseTo(((1.25 * t) / k) ** 2, 9);
    expect(bond.intervals[0]?.to).toBeCloseTo(grip / 1.25 / t, 9);
    expect(bond.intervals[0]?.toBecause).toContain("limit of the grip");
  });
  it("keeps to the provision's own limits unless told otherwise", () => {
    const [only] = embedmentForMode(aci, table(strong), 0, "concrete_breakout").intervals;
    expect(only?.from).toBeCloseTo(4 * 15.875, 9);
    expectSaid(only?.fromBecause, "17.3.3");
  });
  it("none: says why, with the nearest miss", () => {
    const none = embedmentForMode(aci, table(strong), 0, "bond", { above: 0.25, gripLoad_N: 30e3 });
    expect(none.intervals).toEqual([]);
    expectSaid(none.reading, /no embedment/, "31.75 mm to 476.3 mm", "bond", "25.0 %");
    expectSaid(none.reading, /because .*margin/, /nearest miss/);
    expectSaid(
      embedmentForMode(aci, table(strong), 0, "bar_rupture").reading,
      /because another load .*first/,
      /nearest miss/,
    );
    const { best } = none;
    // The best of the line is the best of any embedment tried.
    const tried = modeMargins(
      aci,
      table(strong),
      0,
      "bond",
      { embedment_mm: Float64Array.from({ length: 4000 }, (_, k) => 63.5 + k * 0.06) },
      4000,
      { gripLoad_N: 30e3 },
    ).margin;
    expect(best?.margin).toBeGreaterThan(Math.max(...tried) - 1e-4);
    expectSaid(
      embedmentForMode(aci, table({ ...strong, setup: "confined_tension" }), 0, "concrete_breakout")
        .reading,
      "confined_tension",
      /cannot fail/,
    );
    expect(
      embedmentForMode(aci, table({ ...strong, bond_strength_char_MPa: null }), 0, "bond").reading,
    ).toContain("needs bond_strength_char_MPa");
  });
  it("finds every interval where the margin does not run one way: jump of k_cp in pryout", () => {
    // In shear pryout doubles at 2.5 in.; edge breakout barely follows the embedment: pryout
    // governs below the jump and may again.
    const shear = {
      ...strong,
      action: "shear",
      setup: "direct_shear",
      edge_1_mm: 160,
      bar_shear_strength_MPa: 400,
      bond_strength_char_MPa: 12,
    } as const;
    const answer = embedmentForMode(aci, table(shear), 0, "pryout", {
      from: 35,
      to: 300,
      beyondLimits: true,
    });
    const margin = (h: number): number =>
      marginsOf({ ...shear, embedment_mm: h }, "pryout").margin[0]!;
    const line = Float64Array.from({ length: 2000 }, (_, k) => 35 + k * 0.13);
    const margins = modeMargins(
      aci,
      table(shear),
      0,
      "pryout",
      { embedment_mm: line },
      2000,
    ).margin;
    const scanned = [...line].filter((_, k) => margins[k]! >= 0);
    for (const h of scanned)
      expect(
        answer.intervals.some(({ from, to }) => h >= from && h <= to),
        String(h),
      ).toBe(true);
    expect(scanned.length).toBeGreaterThan(10);
    expect(answer.intervals.length).toBeGreaterThan(0);
    holdsAtItsEnds(answer, margin);
  });
  it("over random specimens every end keeps its equation to 1e-9, and a dense line agrees", () => {
    let met = 0;
    for (const row of randomRows(73, 14, 0)) {
      const test = {
        ...row,
        action: "tension" as const,
        setup: "unconfined_tension" as const,
        concrete_strength_basis: "cylinder" as const,
        installation: "post_installed" as const,
      };
      for (const mode of ["bond", "concrete_breakout", "bar_rupture"] as const) {
        const answer = embedmentForMode(aci, table(test), 0, mode, {
          above: 0.02,
          beyondLimits: true,
          from: 40,
          to: 500,
          gripLoad_N: 400e3,
        });
        met += holdsAtItsEnds(
          answer,
          (h) => marginsOf({ ...test, embedment_mm: h }, mode, { gripLoad_N: 400e3 }).margin[0]!,
        );
        const line = Float64Array.from({ length: 700 }, (_, k) => 40.03 + k * 0.657);
        modeMargins(aci, table(test), 0, mode, { embedment_mm: line }, 700, {
          gripLoad_N: 400e3,
        }).margin.forEach((margin, k) => {
          const inside = answer.intervals.some(
            ({ from, to }) => line[k]! >= from && line[k]! <= to,
          );
          if (margin >= 0.02 !== inside)
            expect.fail(`${mode} at ${line[k]!}: margin ${margin}, ${answer.reading}`);
        });
      }
    }
    expect(met).toBeGreaterThan(5);
  });
  it("refuses a range that is none", () => {
    expect(() => embedmentForMode(aci, table(strong), 0, "bond", { from: 100, to: 50 })).toThrow(
      "expected a margin above -1 and a range of positive lengths",
    );
  });
});

describe("map of governing modes", () => {
  const axes = {
    x: { column: "embedment_mm", values: Array.from({ length: 30 }, (_, k) => 50 + 12 * k) },
    y: {
      column: "concrete_strength_MPa",
      values: Array.from({ length: 20 }, (_, k) => 15 + 2.5 * k),
    },
  };
  const short = { ...strong, bar_strength_MPa: 500 };
  const map = governingMap(aci, table(short), 0, axes);

  it("agrees with the prediction of each point taken alone", () => {
    const random = createRandom(79);
    for (let k = 0; k < 60; k++) {
      const [c, r] = [Math.floor(30 * random.uniform()), Math.floor(20 * random.uniform())];
      const prediction = predict(
        aci,
        table({
          ...short,
          embedment_mm: axes.x.values[c]!,
          concrete_strength_MPa: axes.y.values[r]!,
        }),
      );
      const least = governing(prediction);
      expect(map.governing[r]?.[c]).toBe(prediction.columns[least.column[0]!]?.provision.modes[0]);
      expect(map.capacity[r]?.[c]).toBe(least.capacity[0]);
    }
    expect(new Set(map.governing.flat())).toEqual(
      new Set(["concrete_breakout", "bond", "bar_rupture"]),
    );
  });
  it("crossings are where the two capacities are equal", () => {
    expect(map.crossings.length).toBeGreaterThan(20);
    const ids: Record<string, string> = {
      concrete_breakout: "aci318-19/17.6.2",
      bond: "aci318-19/17.6.5",
      bar_rupture: "aci318-19/17.6.1.2",
    };
    for (const { x, y, modes } of map.crossings) {
      const [a, b] = modes.map((mode) =>
        at(x, ids[mode ?? ""] ?? "", { ...short, concrete_strength_MPa: y }),
      ) as [number, number];
      expect(Math.abs(a / b - 1)).toBeLessThan(1e-9);
    }
    // By hand: breakout and bond cross where k sqrt(f_c) h^1.5 = t h, so h f_c is one number along
    // the line, until f_c reaches 8000 psi.
    const line = map.crossings
      .filter(
        ({ modes, y }) => modes.includes("concrete_breakout") && modes.includes("bond") && y < 55,
      )
      .map(({ x, y }) => x * y);
    expect(line.length).toBeGreaterThan(10);
    for (const product of line) expect(product / line[0]!).toBeCloseTo(1, 9);
  });
  it("the boundary is in pieces that join crossings", () => {
    expect(map.boundaries.length).toBeGreaterThan(15);
    const places = new Set(map.crossings.map(({ x, y }) => `${x} ${y}`));
    expect(
      map.boundaries.filter(({ from, to }) => [from, to].some(([x, y]) => places.has(`${x} ${y}`))),
    ).toHaveLength(map.boundaries.length);
  });
  it("random points between the grid lie on the side that the nearest crossing says", () => {
    const random = createRandom(83);
    for (let k = 0; k < 80; k++) {
      const [c, r, u, v] = [
        Math.floor(29 * random.uniform()),
        Math.floor(19 * random.uniform()),
        random.uniform(),
        random.uniform(),
      ];
      const corners = [
        map.governing[r]![c],
        map.governing[r]![c + 1],
        map.governing[r + 1]![c],
        map.governing[r + 1]![c + 1],
      ];
      if (new Set(corners).size > 1) continue;
      const prediction = predict(
        aci,
        table({
          ...short,
          embedment_mm: axes.x.values[c]! + 12 * u,
          concrete_strength_MPa: axes.y.values[r]! + 2.5 * v,
        }),
      );
      expect(prediction.columns[governing(prediction).column[0]!]?.provision.modes[0]).toBe(
        corners[0],
      );
    }
  });
  it("refuses an axis that does not rise", () => {
    expect(() =>
      governingMap(aci, table(strong), 0, {
        ...axes,
        x: { column: "embedment_mm", values: [100, 90] },
      }),
    ).toThrow("expected at least two that rise");
  });
});
