import { inch, psi, squareInch } from "../specimens";
import type { WorkedCapacity } from "./case";
import { PRINTED_CAPACITIES } from "./printed-formulas";

const BEFORE =
  "computed beforehand from the same equations, separately from this library: detects coding errors, not a misread clause; no readable published number was found";
const shear = { action: "shear", setup: "direct_shear" } as const;

// AISC Design Guide 1, 2nd edition, table of concrete pullout strength of headed rods: phi N_pn in
// kip for f'c of 3, 4 and 5 ksi
// by A_brg in in.2. Its row of 1.22 in.2 prints 34.1 where the exact product is 34.16, and is left
// out.
const HEADS: readonly (readonly [number, readonly [number, number, number]])[] = [
  [0.689, [11.6, 15.4, 19.3]],
  [0.906, [15.2, 20.3, 25.4]],
  [1.5, [25.2, 33.6, 42]],
  [5.35, [90, 120, 150]],
];
const heads: readonly WorkedCapacity[] = HEADS.flatMap(([area, printed]) =>
  printed.map((kip, k) => ({
    id: "W2",
    kind: "published" as const,
    source: "AISC Design Guide 1, 2nd edition, concrete pullout table",
    code: "aci318-19",
    provision: "aci318-19/17.6.3.2.2a",
    level: "design" as const,
    row: { installation: "cast_in" as const, concrete_strength_MPa: psi(3000 + 1000 * k) },
    options: { A_brg: squareInch(area) },
    expected: { design_capacity: [kip * 1000, area > 5 ? 500 : 50.1] as const },
  })),
);

const NEAR = { edge_1_mm: inch(4) };
const EDGE = { ...shear, edge_1_mm: inch(5), edge_2_mm: inch(6), member_thickness_mm: inch(6) };
const EN_BOND = {
  bar_diameter_mm: 16,
  bar_area_mm2: 201.06,
  embedment_mm: 125,
  concrete_strength_MPa: 25,
  bond_strength_char_MPa: 8,
  bond_strength_uncracked_char_MPa: 12,
  cracked: "yes" as const,
};
const NO5 = {
  bar_diameter_mm: inch(0.625),
  bar_area_mm2: squareInch(0.31),
  bar_strength_MPa: psi(29_100 / 0.31),
  concrete_strength_MPa: psi(4000),
  cover_mm: inch(1.5 - 0.3125),
  installation: "cast_in" as const,
  embedment_mm: inch(12),
};

/** The capacities among the worked examples W and the anchors C that this project keeps. */
export const SHEET_CAPACITIES: readonly WorkedCapacity[] = [
  ...PRINTED_CAPACITIES,
  ...heads,
  {
    id: "W5",
    kind: "published",
    source:
      "Reinforced Concrete with FRP Bars, read on what-when-how.com, p. 341-342; agrees with alpha 1.5 and C 1.0 in., which are inferred (the page prints alpha 1.0, which gives 50.5)",
    code: "aci440.1r-15",
    provision: "aci440.1r-15/10.1",
    row: {
      bar_diameter_mm: inch(0.5),
      embedment_mm: inch(12),
      concrete_strength_MPa: psi(5000),
      cover_mm: inch(0.75),
      casting_position: "top",
    },
    expected: { f_fe: [33_677, 0.5] },
  },
  {
    id: "W5",
    kind: "published",
    source: "the same page with its printed alpha of 1.0: 50.5 ksi, which the page does not print",
    code: "aci440.1r-15",
    provision: "aci440.1r-15/10.1",
    row: {
      bar_diameter_mm: inch(0.5),
      embedment_mm: inch(12),
      concrete_strength_MPa: psi(5000),
      cover_mm: inch(0.75),
      casting_position: "good",
    },
    expected: { f_fe: [50_500, 50] },
  },
  {
    id: "W5c",
    kind: "published",
    source:
      "the same book, p. 398: 49 ksi and 9.8 ksi; the strength of 70 ksi, C_E 0.7 and the factor 0.2 are inferred",
    code: "aci440.1r-15",
    provision: "aci440.1r-15/creep-rupture",
    row: { bar_strength_MPa: psi(70_000), bar_area_mm2: squareInch(1) },
    options: { C_E: 0.7, sustained: 1 },
    expected: { f_fu: [49_000, 0.5], N_creep: [9_800, 0.5] },
  },
  {
    id: "C1",
    kind: "constructed",
    source: BEFORE,
    code: "aci318-19",
    provision: "aci318-19/17.6.5",
    row: NEAR,
    expected: {
      c_Na: [7.2984, 5e-5],
      A_Na: [164.922, 5e-4],
      A_Nao: [213.068, 5e-4],
      psi_ed_Na: [0.86442, 5e-6],
      psi_cp_Na: [1, 0],
      N_ba: [11_781, 0.05],
      N_ag: [7_882.5, 0.05],
    },
  },
  {
    id: "C1",
    kind: "constructed",
    source: BEFORE,
    code: "aci318-19",
    provision: "aci318-19/17.6.2",
    row: NEAR,
    expected: {
      A_Nc: [0.72222 * 324, 5e-6 * 324],
      A_Nco: [324, 1e-9],
      k_c: [17, 0],
      N_b: [15_801.8, 0.05],
      psi_ed_N: [0.83333, 5e-6],
      N_cbg: [9_510.3, 0.05],
    },
  },
  {
    id: "C1",
    kind: "constructed",
    source: BEFORE,
    code: "aci318-19",
    provision: "aci318-19/17.7.3",
    row: NEAR,
    expected: { k_cp: [2, 0], V_cpg: [15_765, 0.5] },
  },
  {
    id: "C2",
    kind: "constructed",
    source: BEFORE,
    code: "aci318-19",
    provision: "aci318-19/17.7.2",
    row: EDGE,
    expected: {
      l_e: [5, 1e-9],
      V_b_a: [5_931.2, 0.05],
      V_b_b: [6_364, 0.05],
      A_Vc: [81, 1e-9],
      A_Vco: [112.5, 1e-9],
      psi_ed_V: [0.94, 1e-9],
      psi_c_V: [1, 0],
      psi_h_V: [1.11803, 5e-6],
      V_cbg: [4_488, 0.05],
    },
  },
  // The metric form's rounded coefficient: 6,122.6 lb.
  {
    id: "C2",
    kind: "constructed",
    source: BEFORE,
    code: "aci318-19m",
    provision: "aci318-19/17.7.2",
    row: EDGE,
    expected: { V_b: [6_122.6 * 4.4482216152605, 0.25] },
  },
  {
    id: "C4",
    kind: "constructed",
    source: BEFORE,
    code: "en1992-4-2018",
    provision: "en1992-4-2018/7.2.1.6",
    row: EN_BOND,
    expected: { N_Rk_p_0: [50_265, 0.5], s_cr_Np: [375, 1e-9], tau_Rk_c: [8.5634, 5e-5] },
  },
  // 404.6 mm before the cap of 3 h_ef, which a bar of 200 mm does not reach.
  {
    id: "C4",
    kind: "constructed",
    source: BEFORE,
    code: "en1992-4-2018",
    provision: "en1992-4-2018/7.2.1.6",
    row: { ...EN_BOND, embedment_mm: 200 },
    expected: { s_cr_Np: [404.6, 0.05] },
  },
  {
    id: "C4",
    kind: "constructed",
    source: BEFORE,
    code: "en1992-4-2018",
    provision: "en1992-4-2018/7.2.1.6",
    row: { ...EN_BOND, group_nx: 2, group_ny: 2, spacing_x_mm: 100, spacing_y_mm: 100 },
    expected: { psi_g_Np_0: [1.097, 5e-5], psi_g_Np: [1.0469, 5e-5] },
  },
  {
    id: "C4",
    kind: "constructed",
    source: BEFORE,
    code: "en1992-4-2018",
    provision: "en1992-4-2018/7.2.1.6",
    row: EN_BOND,
    options: { sustained_share: 0.8 },
    expected: { psi_sus: [0.8, 1e-12] },
  },
  {
    id: "C5",
    kind: "constructed",
    source: BEFORE,
    code: "aci440.1r-15",
    provision: "aci440.1r-15/10.1",
    row: NO5,
    options: { C_E: 0.85, extrapolate_below_20_d: 1 },
    expected: { f_fu: [79_790, 5], f_fe: [40_930, 5] },
  },
  {
    id: "C5",
    kind: "constructed",
    source: BEFORE,
    code: "wambeke-shield-2006",
    provision: "wambeke-shield-2006/bond",
    level: "expected",
    row: NO5,
    expected: { u: [(48_220 * 0.625) / 48, (5 * 0.625) / 48] },
  },
];
