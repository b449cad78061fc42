import { describe, expect, it } from "vitest";
import {
  embedmentForMode,
  modeMargins,
  type EmbedmentForMode,
} from "../../../kernel-lib/src/provisions";
import { randomRows, table } from "../specimens";
import { expectSaid } from "../../says";
import { aci, at, marginsOf, strong } from "./strong-bar";

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
  it("remote from edges: the ends are where the power laws cross, worked by hand", () => {
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
    expectSaid(none.reading, /because .*margin/, /The closest is/);
    expectSaid(
      embedmentForMode(aci, table(strong), 0, "bar_rupture").reading,
      /because another mode governs/,
      /The closest is/,
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
