import { describe, expect, it } from "vitest";
import type { TestRowInput } from "../../kernel-lib/src/dataset";
import {
  code,
  concreteInteraction,
  predict,
  reasonsAt,
  steelInteraction,
  trace,
  type PredictionSettings,
} from "../../kernel-lib/src/provisions";
import { FASTENED, FASTENED_ROWS, FASTENED_SETTINGS } from "./recomputed/older";
import { capacity, column, steps, table } from "./specimens";

const EN = code("en1992-4-2018");
const { A } = FASTENED_ROWS;
const { plain } = FASTENED_SETTINGS;

describe("EN 1992-4 recomputed", () => {
  it.each(FASTENED)("case %s: %s", (_, provision, row, settings, kilonewtons) => {
    expect(capacity(EN, provision, row, settings) / 1000 / kilonewtons).toBeCloseTo(1, 9);
  });
});

describe("EN 1992-4 sustained tension", () => {
  it("counts only above the share that needs no factor", () => {
    expect(
      steps(
        EN,
        "en1992-4-2018/7.2.1.6",
        { ...A, edge_1_mm: null },
        { options: { sustained_share: 0.5 } },
      )["psi_sus"],
    ).toBe(1);
  });
});

describe("EN 1992-4 levels and limits", () => {
  it("partial factors: gamma_c gamma_inst in tension, gamma_c in shear, steel by its yield ratio", () => {
    const options = { gamma_inst: 1.2, yield_ratio: 0.8 };
    const share = (id: string, row: Partial<TestRowInput>): number =>
      capacity(EN, id, row, { level: "design", options }) /
      capacity(EN, id, row, { level: "nominal", options });
    const steel: Partial<TestRowInput> = { ...A, bar_material: "steel", bar_strength_MPa: 700 };
    // From memory: gamma_Mc = 1.5 gamma_inst; gamma_Ms = 1.2 / 0.8 = 1.5 in tension and 1.0 / 0.8 =
    // 1.25 in shear.
    expect(1 / share("en1992-4-2018/7.2.1.4", A)).toBeCloseTo(1.8, 12);
    expect(1 / share("en1992-4-2018/7.2.2.5", A)).toBeCloseTo(1.5, 12);
    expect(1 / share("en1992-4-2018/7.2.1.3", steel)).toBeCloseTo(1.5, 12);
    expect(1 / share("en1992-4-2018/7.2.2.3.1", steel)).toBeCloseTo(1.25, 12);
    expect(1 / share("en1992-4-2018/7.2.2.3.1", { ...steel, bar_strength_MPa: 900 })).toBeCloseTo(
      1.5,
      12,
    );
  });

  it("steel in shear: 0.6 of the strength up to 500 MPa, 0.5 above; bending with a lever arm", () => {
    const steel: Partial<TestRowInput> = { ...A, bar_material: "steel", bar_strength_MPa: 500 };
    expect(capacity(EN, "en1992-4-2018/7.2.2.3.1", steel)).toBeCloseTo(0.6 * 201.06 * 500, 6);
    expect(
      capacity(EN, "en1992-4-2018/7.2.2.3.1", { ...steel, bar_strength_MPa: 600 }),
    ).toBeCloseTo(0.5 * 201.06 * 600, 6);
    expect(
      capacity(EN, "en1992-4-2018/7.2.2.3.1", steel, { options: { lever_arm: 20 } }),
    ).toBeNaN();
  });

  it("says why a clause does not apply", () => {
    const prediction = predict(
      EN,
      table(
        { ...A, edge_1_mm: null },
        { ...A, edge_1_mm: 1300 },
        { ...A, installation: "cast_in" },
      ),
    );
    const says = (id: string, i: number): string =>
      reasonsAt(prediction, column(prediction, id), i)
        .map((reason) => reason.says)
        .join("; ");
    expect(says("en1992-4-2018/7.2.2.5", 0)).toContain("edge 1 is remote");
    expect(says("en1992-4-2018/7.2.2.5", 1)).toContain("need not be checked");
    expect(says("en1992-4-2018/7.2.1.7", 0)).toContain("c_cr_sp_ratio");
    expect(says("en1992-4-2018/7.2.1.6", 2)).toContain("drilled holes");
    expect(says("en1992-4-2018/7.2.1.4", 2)).toContain("no head");
  });

  it("splitting is left out where edges are far and the member thick", () => {
    expect(capacity(EN, "en1992-4-2018/7.2.1.7", { ...A, edge_1_mm: 250 }, plain)).toBeNaN();
    expect(capacity(EN, "en1992-4-2018/7.2.1.7", { ...A, edge_1_mm: 249 }, plain)).toBeGreaterThan(
      0,
    );
    expect(
      capacity(EN, "en1992-4-2018/7.2.1.7", A, {
        options: { ...plain.options, splitting_reinforced: 1 },
      }),
    ).toBeNaN();
  });

  describe("splitting of bars farther apart than s_cr,sp = 500 mm (c_cr,sp 250 mm)", () => {
    const N_SP = "en1992-4-2018/7.2.1.7";
    const thin: PredictionSettings = { options: { c_cr_sp_ratio: 2, h_min: 400 } };
    const splits = (row: Partial<TestRowInput>, settings: PredictionSettings = plain): number =>
      capacity(EN, N_SP, { ...A, edge_1_mm: null, ...row }, settings);
    const pair = (
      spacing_x_mm: number,
      more: Partial<TestRowInput> = {},
    ): Partial<TestRowInput> => ({ group_nx: 2, spacing_x_mm, ...more });
    const along = (
      spacing_y_mm: number,
      more: Partial<TestRowInput> = {},
    ): Partial<TestRowInput> => ({ group_ny: 2, spacing_y_mm, ...more });

    it("carry as many times one bar, in a thin member and in a row along an edge", () => {
      for (const s of [500.001, 700, 5000]) {
        expect(splits(pair(s), thin) / splits({}, thin)).toBeCloseTo(2, 12);
        expect(splits({ ...pair(s), ...along(s) }, thin) / splits({}, thin)).toBeCloseTo(4, 12);
        expect(splits(along(s, { edge_1_mm: 120 })) / splits({ edge_1_mm: 120 })).toBeCloseTo(
          2,
          12,
        );
      }
    });

    it("do not jump at s_cr,sp where the edges touch all bars alike", () => {
      for (const [row, settings] of [
        [pair, thin],
        [(s: number): Partial<TestRowInput> => along(s, { edge_1_mm: 120 }), plain],
      ] as const) {
        expect(splits(row(500 - 1e-6), settings) / splits(row(500 + 1e-6), settings)).toBeCloseTo(
          1,
          8,
        );
      }
    });

    it("count each with its own edges: the far one loses the edge factor of the near one, and no more", () => {
      // On paper: c_1 = 120 < 250, psi_s = 0.7 + 0.3 x 120/250 = 0.844; area of the near bar (120 +
      // 250) 500 of 500^2, that of the far bar whole.
      const one = steps(EN, N_SP, { ...A, edge_1_mm: 120 }, plain);
      const [basic, thickness] = [one["N_Rk_sp_0"] ?? NaN, one["psi_h_sp"] ?? NaN];
      const far =
        steps(EN, N_SP, { ...A, edge_1_mm: null }, { options: { c_cr_sp_ratio: 2, h_min: 150 } })[
          "psi_h_sp"
        ] ?? NaN;
      expect(splits(pair(600, { edge_1_mm: 120 })) / basic).toBeCloseTo(
        0.74 * 0.844 * thickness + far,
        12,
      );
      expect(splits(pair(500 - 1e-9, { edge_1_mm: 120 })) / basic).toBeCloseTo(
        (0.74 + 1) * 0.844 * thickness,
        9,
      );
    });

    it("state nothing where no bar needs the check, and something where one does", () => {
      expect(splits(pair(600, { edge_1_mm: 250 }))).toBeNaN();
      expect(splits(pair(600, { edge_1_mm: 249 }))).toBeGreaterThan(0);
      const prediction = predict(
        EN,
        table({ ...A, edge_1_mm: 249, ...pair(600) }, { ...A, edge_1_mm: 250, ...pair(600) }),
        plain,
      );
      expect([0, 1].map((i) => reasonsAt(prediction, column(prediction, N_SP), i).length)).toEqual([
        0, 1,
      ]);
    });

    it("print a hand calculation that ends on the column's bits", () => {
      const row = { ...A, edge_1_mm: 120, ...pair(600) };
      const provision = EN.provisions.find(({ id }) => id === N_SP);
      const all = provision && trace(EN, provision, table(row), 0, plain);
      expect(all?.parts.map(({ label }) => label)).toEqual(["row 1 across", "row 2 across"]);
      expect(all?.capacity_N).toBe(capacity(EN, N_SP, row, plain));
    });
  });

  it("a load along edge 2 is the load along edge 1 of the turned plan, twice the one at a right angle", () => {
    const row: Partial<TestRowInput> = { ...A, edge_1_mm: null, edge_2_mm: 120 };
    expect(capacity(EN, "en1992-4-2018/7.2.2.5-edge2", row)).toBeCloseTo(
      2 * capacity(EN, "en1992-4-2018/7.2.2.5", A),
      6,
    );
    expect(
      capacity(EN, "en1992-4-2018/7.2.2.5-edge2", row, { options: { load_angle: 90 } }),
    ).toBeCloseTo(capacity(EN, "en1992-4-2018/7.2.2.5", A), 6);
  });

  it("pry-out of pairs that are apart in bond draws on the bond of both pairs, as 7.2.1.6 adds them", () => {
    const row: Partial<TestRowInput> = {
      ...A,
      edge_1_mm: null,
      group_nx: 2,
      group_ny: 2,
      spacing_x_mm: 100,
      spacing_y_mm: 374,
      bond_strength_char_MPa: 4,
      bond_strength_uncracked_char_MPa: 5,
    };
    const pair = capacity(EN, "en1992-4-2018/7.2.1.6", { ...row, group_ny: 1, spacing_y_mm: null });
    expect(capacity(EN, "en1992-4-2018/7.2.1.6", row) / pair).toBeCloseTo(2, 12);
    expect(capacity(EN, "en1992-4-2018/7.2.2.4", row) / (2 * 2 * pair)).toBeCloseTo(1, 12);
  });

  it("compression beside the cone raises it, but not near an edge", () => {
    const far = { ...A, edge_1_mm: null };
    expect(
      capacity(EN, "en1992-4-2018/7.2.1.4", far, { options: { compression_lever_arm: 100 } }) /
        capacity(EN, "en1992-4-2018/7.2.1.4", far),
    ).toBeCloseTo(2 - 100 / 187.5, 12);
    expect(
      capacity(EN, "en1992-4-2018/7.2.1.4", A, { options: { compression_lever_arm: 100 } }),
    ).toBe(capacity(EN, "en1992-4-2018/7.2.1.4", A));
  });

  it("headed cast-in bars use the larger cone coefficient, also in pry-out", () => {
    const cast: Partial<TestRowInput> = { ...A, installation: "cast_in" };
    const options = { headed_cast_in: 1 };
    expect(
      capacity(EN, "en1992-4-2018/7.2.1.4", cast, { options }) /
        capacity(EN, "en1992-4-2018/7.2.1.4", A),
    ).toBeCloseTo(8.9 / 7.7, 12);
    expect(capacity(EN, "en1992-4-2018/7.2.2.4-headed", cast, { options })).toBeCloseTo(
      2 * capacity(EN, "en1992-4-2018/7.2.1.4", cast, { options }),
      6,
    );
  });
});

describe("EN 1992-4 interaction", () => {
  it("by the power form lets the ratios add up to 2^(1/3) = 1.26 at most, and needs both ratios", () => {
    for (let n = 0; n <= 1; n += 0.01) {
      for (let v = 0; v <= 1; v += 0.01)
        if (concreteInteraction(n, v).holds)
          expect(n + v, `${n} ${v}`).toBeLessThanOrEqual(2 ** (1 / 3) + 1e-12);
    }
    expect(() => steelInteraction(NaN, 0.5)).toThrow(RangeError);
    expect(() => concreteInteraction(0.5, -1)).toThrow(RangeError);
  });
});
