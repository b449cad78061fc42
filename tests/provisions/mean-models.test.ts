import { describe, expect, it } from "vitest";
import type { TestRowInput } from "../../kernel-lib/src/dataset";
import { code, predict, reasonsAt, type PredictionSettings } from "../../kernel-lib/src/provisions";
import {
  BONDED as BOND,
  bonded,
  MEAN_FRP as FRP,
  MEAN_SHEAR as SHEAR,
  MEAN_STEEL as STEEL,
  MEANS,
} from "./recomputed/older";
import { capacity, column, inch, psi, pounds, steps, table } from "./specimens";

type Row = Partial<TestRowInput>;
const EXPECTED: PredictionSettings = { level: "expected" };
const kilonewtons = (id: string, row: Row, settings: PredictionSettings = EXPECTED): number =>
  capacity(code(id.slice(0, id.indexOf("/"))), id, row, settings) / 1000;

describe("mean models recomputed", () => {
  it.each(MEANS)("%s", (id, rows, expected) => {
    rows.forEach((row, i) =>
      expect(kilonewtons(id, row) / (expected[i] ?? NaN), `case ${i}`).toBeCloseTo(1, 8),
    );
  });
});

describe("cone and bond", () => {
  it("never carries more than bond alone or the cone alone, and meets the cone when the bar is short", () => {
    for (const tau of [5, 10, 20, 40]) {
      for (const length of [40, 80, 160, 320]) {
        const row = bonded(16, length, 30, tau, null);
        const bond = (tau * Math.PI * 16 * length) / 1000;
        const cones = {
          "cone-bond-1993/tension": (0.92 * length ** 2 * Math.sqrt(30)) / 1000,
          "combined-cone-bond/tension": (14.6 * Math.sqrt(30) * length ** 1.5) / 1000,
        };
        for (const [id, cone] of Object.entries(cones)) {
          const load = kilonewtons(id, row);
          expect(load).toBeLessThanOrEqual(Math.min(bond, cone) * (1 + 1e-12));
          if (
            (steps(code(id.slice(0, id.indexOf("/"))), id, row, EXPECTED)["h_c"] ?? NaN) >= length
          )
            expect(load / cone).toBeCloseTo(1, 12);
        }
      }
    }
  });

  it("is stated for single bars only", () => {
    expect(
      kilonewtons("cone-bond-1993/tension", { ...BOND[0], group_nx: 2, spacing_x_mm: 100 }),
    ).toBeNaN();
  });
});

describe("what the models ask for", () => {
  it("uniform bond without a mean bond stress says so; the bar's rupture closes the smaller-of rule", () => {
    const prediction = predict(
      code("uniform-bond-1998"),
      table({ bar_strength_MPa: 850 }),
      EXPECTED,
    );
    const bond = column(prediction, "uniform-bond-1998/bond");
    expect(bond.capacity[0]).toBeNaN();
    expect(reasonsAt(prediction, bond, 0)[0]?.says).toContain("bond_strength_mean_MPa");
    expect(column(prediction, "uniform-bond-1998/bar-rupture").capacity[0]).toBeCloseTo(
      199 * 850,
      6,
    );
  });

  it("a mean bond stress stated for every row stands in for the column", () => {
    const [row] = BOND;
    for (const id of [
      "uniform-bond-1998/bond",
      "cone-bond-1993/tension",
      "combined-cone-bond/tension",
    ]) {
      expect(
        kilonewtons(
          id,
          { ...row, bond_strength_mean_MPa: null },
          { ...EXPECTED, options: { mean_bond_stress: 12 } },
        ),
        id,
      ).toBe(kilonewtons(id, row ?? {}));
    }
  });

  it("transverse reinforcement adds as the equations say", () => {
    const base = STEEL[0] ?? {};
    const area = Math.PI * 16 * 320;
    // A_tr f_yt / (s d) = 1000 psi adds 2 sqrt(f'c) to u: by hand.
    const added =
      kilonewtons("orangun-1977/bond", base, {
        ...EXPECTED,
        options: { transverse_stress: psi(1000) },
      }) - kilonewtons("orangun-1977/bond", base);
    expect((added * 1000) / area / psi(1)).toBeCloseTo(2 * Math.sqrt(25 / psi(1)), 6);
    // (30.88 t_d t_r A + 3) f'c^(3/4) lb with t_d = 0.72 x 16/25.4 + 0.28, t_r = 9.6 x 0.1 + 0.28,
    // A = 0.2 in.2: by hand.
    const stirrups =
      kilonewtons("aci408r-03/bond", base, {
        ...EXPECTED,
        options: { transverse_area: 0.2 * 645.16, R_r: 0.1 },
      }) - kilonewtons("aci408r-03/bond", base);
    expect(pounds(stirrups * 1000)).toBeCloseTo(
      (30.88 * ((0.72 * 16) / 25.4 + 0.28) * 1.24 * 0.2 + 3) * (25 / psi(1)) ** 0.75,
      4,
    );
  });

  it("mean edge shear over the code's: 3.0/2.4 with cube for cylinder strength", () => {
    const row: Row = { ...SHEAR[0], cracked: "no" };
    expect(
      kilonewtons("edge-shear-2005/shear", row) / kilonewtons("en1992-4-2018/7.2.2.5", row, {}),
    ).toBeCloseTo(3 / 2.4 / Math.sqrt(0.85), 12);
  });

  it("Wambeke and Shield counts cover up to 3.5 diameters only", () => {
    const at = (cover: number): number =>
      kilonewtons("wambeke-shield-2006/bond", { ...FRP[0], cover_mm: cover });
    expect(at(inch(3))).toBe(at(inch(5)));
    expect(at(inch(1))).toBeLessThan(at(inch(1.5)));
  });
});
