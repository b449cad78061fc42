import { describe, expect, it } from "vitest";
import type { TestRowInput } from "../../kernel-lib/src/dataset";
import { code, CODES } from "../../kernel-lib/src/provisions";
import { capacity, inch, psi } from "./specimens";

type Row = Partial<TestRowInput>;
/**
 * A capacity that jumps as one input passes a value: the edition's own doing, with the ratio of
 * above to below on paper.
 */
type Jump = readonly [
  provision: string,
  what: string,
  at: number,
  ratio: number,
  row: (x: number) => Row,
  options?: Readonly<Record<string, number>>,
];

// A pair whose near bar is half its reach from an edge, psi_ed 0.85: together (0.5 + 2 + 1) 0.85 of
// a bar's half breadth, apart 1.5 x 0.85 + 2.
const PARTED = (1.5 * 0.85 + 2) / (3.5 * 0.85);
const pair =
  (edge: number) =>
  (x: number): Row => ({ group_nx: 2, spacing_x_mm: x, edge_1_mm: edge });
const row =
  (edge: number, side: number) =>
  (x: number): Row => ({
    group_ny: 2,
    spacing_y_mm: x,
    edge_1_mm: edge,
    edge_2_mm: side,
    member_thickness_mm: 2000,
  });
const cast = {
  installation: "cast_in",
  bar_surface: "ribbed",
  cover_mm: 30,
  casting_position: "good",
} as const;
const steel = { ...cast, bar_material: "steel", bar_strength_MPa: 5000 } as const;
const [h, c_Na, c_Np] = [inch(6), inch(6.25 * Math.sqrt(1500 / 1100)), (7.3 * 15.875 * 3) / 2];
// d^alpha l_f^beta of EN 1992-4 at d = 24 mm and c_1 = 200 mm.
const edgeTerm = (l: number): number =>
  24 ** (0.1 * Math.sqrt(l / 200)) * l ** (0.1 * (24 / 200) ** 0.2);

// Bar 90 mm from three edges, d = 1.5 h from the fourth: areas 180 (90 + d) / (2 d)^2 with h^1.5
// and psi_ed, against one bar's whole square with 60^1.5.
const fourth = (depth: number, edgeFactor: number): number =>
  60 ** 1.5 / (((180 * (90 + 1.5 * depth)) / (3 * depth) ** 2) * edgeFactor * depth ** 1.5);

const JUMPS: readonly Jump[] = [
  ["aci318-19/17.6.2", "a bar parts at 3 h_ef", 3 * h, PARTED, pair(0.75 * h)],
  ["aci318-19/17.6.5", "a bar parts at 2 c_Na", 2 * c_Na, PARTED, pair(c_Na / 2)],
  ["aci318-19/17.7.2", "a bar parts at 3 c_a1", 300, PARTED, row(100, 75)],
  [
    "aci318-19/17.7.2",
    "rows begin to share",
    100,
    2,
    (x) => ({ group_nx: 2, spacing_x_mm: x, edge_1_mm: 100, member_thickness_mm: 2000 }),
    { rows_share_shear: 1 },
  ],
  [
    "aci318-19/17.6.2",
    "a fourth edge no longer counts",
    1.5 * h,
    fourth(h, 0.7 + (0.3 * 90) / (1.5 * h)),
    (x) => ({ edge_1_mm: 90, edge_2_mm: 90, edge_3_mm: 90, edge_4_mm: x }),
  ],
  ["aci318-19/17.7.3", "k_cp", inch(2.5), 2, (x) => ({ embedment_mm: x })],
  [
    "aci318-19/17.6.2",
    "the 5/3-power equation begins",
    inch(11),
    (16 / 24) * 11 ** (1 / 6),
    (x) => ({ ...cast, embedment_mm: x }),
    { headed_cast_in: 1, deep_breakout: 1 },
  ],
  [
    "aci318-19/17.6.2",
    "the 5/3-power form ends",
    inch(25),
    24 / 16 / 25 ** (1 / 6),
    (x) => ({ ...cast, embedment_mm: x }),
    { headed_cast_in: 1, deep_breakout: 1 },
  ],
  [
    "aci318-19/25.4.2",
    "size factor",
    inch(0.76),
    0.8,
    (x) => ({ ...steel, bar_diameter_mm: x, embedment_mm: 200 }),
  ],
  ["en1992-4-2018/7.2.1.4", "a bar parts at s_cr,N", 3 * h, PARTED, pair(0.75 * h)],
  [
    "en1992-4-2018/7.2.1.6",
    "a bar parts at s_cr,Np",
    2 * c_Np,
    PARTED,
    (x) => ({ ...pair(c_Np / 2)(x), bond_strength_uncracked_char_MPa: 9 }),
  ],
  ["en1992-4-2018/7.2.2.5", "a bar parts at 3 c_1", 300, PARTED, row(100, 75)],
  [
    "en1992-4-2018/7.2.2.3.1",
    "k_6",
    500,
    0.5 / 0.6,
    (x) => ({ ...steel, bar_strength_MPa: x, bar_strength_specified_MPa: null }),
  ],
  [
    "en1992-4-2018/7.2.2.3.1",
    "grout",
    32,
    1 / 0.84,
    (x) => ({
      ...steel,
      bar_strength_MPa: 600,
      bar_area_mm2: 200,
      bar_strength_specified_MPa: null,
      bar_diameter_mm: x,
    }),
    { grout_thickness: 16 },
  ],
  ["en1992-4-2018/7.2.2.4", "k_8", 60, 2, (x) => ({ embedment_mm: x })],
  [
    "en1992-4-2018/7.2.1.4",
    "compression near the cone",
    1.5 * h,
    2 - 80 / (1.5 * h),
    (x) => ({ edge_1_mm: x }),
    { compression_lever_arm: 80 },
  ],
  [
    "en1992-4-2018/7.2.2.5",
    "load-bearing length",
    24,
    edgeTerm(300) / edgeTerm(288),
    (x) => ({ edge_1_mm: 200, bar_diameter_mm: x, embedment_mm: 320, member_thickness_mm: 2000 }),
  ],
  [
    "en1992-1-1-2004/8.4",
    "f_ctm",
    50,
    (2.12 * Math.log(6.8)) / (0.3 * 50 ** (2 / 3)),
    (x) => ({ ...steel, concrete_strength_MPa: x }),
  ],
  ["ccd-1995/tension", "a bar parts at 3 h_ef", 3 * h, PARTED, pair(0.75 * h)],
  ["ccd-1995/shear", "a bar parts at 3 c_1", 300, PARTED, row(100, 75)],
  [
    "uniform-bond-1998/bond",
    "a bar parts at s_cr",
    20 * 15.875,
    PARTED,
    (x) => ({ ...pair(5 * 15.875)(x), bond_strength_mean_MPa: 10 }),
  ],
  ["pryout-1995/cone", "k_cp", 65, 2, (x) => ({ embedment_mm: x })],
  ["edge-shear-2005/shear", "a bar parts at 3 c_1", 300, PARTED, row(100, 75)],
  [
    "csa-s806-12/9.3.2",
    "k_3",
    300,
    0.8,
    (x) => ({ ...cast, bar_area_mm2: x, bar_strength_MPa: 5000 }),
  ],
  [
    "jsce-1997/development",
    "alpha_1",
    15.875,
    1 / 0.9,
    (x) => ({ ...cast, cover_mm: x, bar_strength_MPa: 5000 }),
  ],
];

describe("jumps that are the edition's own", () => {
  it.each(JUMPS.map((one) => [one[0], one[1], one] as const))(
    "%s: %s",
    (id, _what, [, , at, ratio, given, options = {}]) => {
      const of = code(id.slice(0, id.indexOf("/")));
      const settings = {
        level: of.provisions.some(({ levels }) => levels.includes("nominal"))
          ? ("nominal" as const)
          : ("expected" as const),
        options,
      };
      const [above, below] = [1 + 1e-9, 1 - 1e-9].map((step) =>
        capacity(of, id, { concrete_strength_MPa: psi(4000), ...given(at * step) }, settings),
      );
      expect((above ?? NaN) / (below ?? NaN)).toBeCloseTo(ratio, 6);
      expect(Math.abs(ratio - 1)).toBeGreaterThan(1e-4);
    },
  );

  it("stand in the card of their code", () => {
    const codes = new Set(JUMPS.map(([id]) => id.slice(0, id.indexOf("/"))));
    expect(
      CODES.filter(({ id, jumps = [] }) => codes.has(id) && jumps.length === 0).map(({ id }) => id),
    ).toEqual([]);
  });
});

describe("pryout", () => {
  it.each([
    ["aci318-19", "17.7.3", "17.6.2", "17.6.5"],
    ["aci318-19m", "17.7.3", "17.6.2", "17.6.5"],
    ["en1992-4-2018", "7.2.2.4", "7.2.1.4", "7.2.1.6"],
  ])(
    "%s draws on no more than the cone and bond give, also where bars are apart in one of them",
    (id, pryout, cone, bond) => {
      const [of, family] = [code(id), id.replace(/19m$/, "19")];
      let apart = 0;
      for (let k = 0; k < 120; k++) {
        const given: Row = {
          embedment_mm: 70 + 3 * k,
          group_nx: 1 + (k % 3),
          group_ny: 1 + (k % 2),
          spacing_x_mm: 90 + 7 * k,
          spacing_y_mm: 300 + k,
          edge_1_mm: 60 + k,
          edge_4_mm: k % 4 === 0 ? 80 : null,
          bond_strength_char_MPa: 3 + (k % 9),
          bond_strength_uncracked_char_MPa: 3 + (k % 9),
          cracked: k % 5 ? "yes" : "no",
        };
        const [v, c, b] = [pryout, cone, bond].map((clause) =>
          capacity(of, `${family}/${clause}`, given),
        );
        const most =
          (id.startsWith("aci") && (given.embedment_mm ?? 0) < 65 ? 1 : 2) *
          Math.min(c ?? NaN, b ?? NaN);
        expect(v).toBeLessThanOrEqual(most * (1 + 1e-12));
        if ((v ?? NaN) < most * (1 - 1e-9)) apart += 1;
      }
      // The rows reach the place where the two differ.
      expect(apart).toBeGreaterThan(3);
    },
  );
});
