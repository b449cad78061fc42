import { inch, psi, squareInch } from "../specimens";
import { byHand, type WorkedCapacity } from "./case";
import { FURTHER } from "./further";

// Numbers chosen so that each result can be followed on paper: f'c 3600 psi has the root 60, 25 MPa
// the root 5.
const shear = { action: "shear", setup: "direct_shear" } as const;
const US = {
  bar_diameter_mm: inch(0.625),
  bar_area_mm2: squareInch(0.31),
  concrete_strength_MPa: psi(3600),
};
const STEEL_US = {
  ...US,
  bar_material: "steel",
  bar_strength_MPa: psi(90_000),
  bar_strength_specified_MPa: null,
  bar_yield_MPa: psi(60_000),
} as const;
const CAST = {
  ...US,
  installation: "cast_in",
  bar_surface: "ribbed",
  bar_material: "steel",
} as const;
const SI = {
  bar_diameter_mm: 16,
  bar_area_mm2: 200,
  bar_strength_specified_MPa: null,
  bar_strength_MPa: 600,
  concrete_strength_MPa: 25,
  embedment_mm: 100,
};
const STEEL = { ...SI, bar_material: "steel", bar_surface: "ribbed" } as const;
const EMBEDDED = {
  ...STEEL,
  installation: "cast_in",
  cover_mm: 40,
  casting_position: "good",
} as const;
const FRP_EMBEDDED = {
  ...SI,
  installation: "cast_in",
  cover_mm: 40,
  casting_position: "good",
} as const;
const HALF_INCH = {
  ...FRP_EMBEDDED,
  bar_diameter_mm: inch(0.5),
  cover_mm: inch(0.75),
  embedment_mm: inch(12),
  concrete_strength_MPa: psi(3600),
  bar_strength_MPa: 5000,
};
const ROWS = {
  ...US,
  ...shear,
  bar_diameter_mm: inch(1),
  embedment_mm: inch(8),
  edge_1_mm: inch(4),
  group_nx: 2,
  group_ny: 2,
  spacing_y_mm: inch(6),
  member_thickness_mm: inch(100),
} as const;
const exact = (value: number): readonly [number, number] => [value, Math.abs(value) * 1e-9];
const both = (of: Omit<WorkedCapacity, "id" | "kind" | "source" | "code">): WorkedCapacity =>
  byHand("H", { code: "aci318-19", ...of });

const ACI: readonly WorkedCapacity[] = [
  // min(90, 1.9 x 60, 125) ksi x 0.31 in.2; 0.6 of it in shear; 0.8 with a grout pad.
  both({ provision: "aci318-19/17.6.1.2", row: STEEL_US, expected: { N_sa: exact(27_900) } }),
  both({
    provision: "aci318-19/17.6.1.2",
    row: { ...STEEL_US, bar_yield_MPa: psi(40_000) },
    expected: { f_uta: exact(76_000) },
  }),
  both({
    provision: "aci318-19/17.7.1.2",
    row: { ...STEEL_US, ...shear },
    expected: { V_sa: exact(16_740) },
  }),
  both({
    provision: "aci318-19/17.7.1.2",
    row: { ...STEEL_US, ...shear },
    options: { grout_pad: 1 },
    expected: { V_sa: exact(13_392) },
  }),
  both({
    provision: "aci318-19/frp-transverse-shear",
    row: { ...US, ...shear, bar_shear_strength_MPa: psi(19_000) },
    expected: { V_f: exact(5_890) },
  }),
  // The guaranteed strength where the row states it, whatever was measured.
  both({
    provision: "aci318-19/frp-transverse-shear",
    row: {
      ...US,
      ...shear,
      bar_shear_strength_MPa: psi(22_000),
      bar_shear_strength_specified_MPa: psi(19_000),
    },
    expected: { V_f: exact(5_890) },
  }),
  // 17 x 60 x 4^1.5; by a product's coefficient of 21 in uncracked concrete, with psi_c,N 1: 21 x
  // 60 x 8.
  both({
    provision: "aci318-19/17.6.2",
    row: { ...US, embedment_mm: inch(4) },
    expected: { N_cbg: exact(8_160) },
  }),
  both({
    provision: "aci318-19/17.6.2",
    row: { ...US, embedment_mm: inch(4), cracked: "no" },
    options: { product_k_c: 21 },
    expected: { N_cbg: exact(10_080) },
  }),
  both({
    provision: "aci318-19/17.6.2",
    row: { ...US, embedment_mm: inch(4), cracked: "no", edge_1_mm: inch(6) },
    options: { product_c_ac: inch(12) },
    expected: { psi_cp_N: exact(0.5) },
  }),
  // Deep heads: 16 x 60 x 12.5^(5/3); Python: 16 * 60 * 12.5 ** (5 / 3).
  both({
    provision: "aci318-19/17.6.2",
    row: { ...CAST, embedment_mm: inch(12.5) },
    options: { headed_cast_in: 1, deep_breakout: 1 },
    expected: { N_b: [64_633.04, 0.005] },
  }),
  both({
    provision: "aci318-19/17.5.2.2",
    row: { embedment_mm: inch(6) },
    options: { sustained: 1 },
    expected: { N_sus: [0.55 * 11_781, 0.05] },
  }),
  // 0.9 x 3600 x 2 x 0.625, 1.4 times as much in uncracked concrete.
  both({
    provision: "aci318-19/17.6.3.2.2b",
    row: CAST,
    options: { e_h: inch(2) },
    expected: { N_pn: exact(4_050) },
  }),
  both({
    provision: "aci318-19/17.6.3.2.2b",
    row: { ...CAST, cracked: "no" },
    options: { e_h: inch(2) },
    expected: { N_pn: exact(5_670) },
  }),
  // 160 x 2 x 1 x 60; (1 + 4/2)/4 of it beside a corner; 1 + 6/12 of it for two bars 6 in. apart.
  both({
    provision: "aci318-19/17.6.4",
    row: { ...CAST, edge_1_mm: inch(2), embedment_mm: inch(6) },
    options: { A_brg: squareInch(1) },
    expected: { N_sbg: exact(19_200) },
  }),
  both({
    provision: "aci318-19/17.6.4",
    row: { ...CAST, edge_1_mm: inch(2), edge_4_mm: inch(4), embedment_mm: inch(6) },
    options: { A_brg: squareInch(1) },
    expected: { N_sbg: exact(14_400) },
  }),
  both({
    provision: "aci318-19/17.6.4",
    row: { ...CAST, edge_2_mm: inch(2), embedment_mm: inch(6), group_nx: 2, spacing_x_mm: inch(6) },
    options: { A_brg: squareInch(1) },
    expected: { N_sbg: exact(28_800) },
  }),
  byHand("H", {
    code: "aci318-19m",
    provision: "aci318-19/17.6.4",
    row: { ...EMBEDDED, edge_1_mm: 30 },
    options: { A_brg: 400 },
    expected: { N_sbg: exact(13 * 30 * 20 * 5) },
  }),
  // Edge 5 in. off in deep concrete, d 1 in., l_e 8 in.: 8 x 8^0.2 x 60 x 11.1803 when welded to a
  // plate, 7 otherwise, 9 x 60 x 11.1803 at most.
  both({
    provision: "aci318-19/17.7.2",
    row: { ...CAST, ...shear, bar_diameter_mm: inch(1), embedment_mm: inch(8), edge_1_mm: inch(5) },
    options: { headed_cast_in: 1, welded_to_plate: 1 },
    expected: { V_b_a: [8 * 8 ** 0.2 * 60 * 5 ** 1.5, 1e-6], V_b: [6_037.4, 0.05] },
  }),
  // Along edge 2 or 4: twice 4,488.0 / 0.94, the corner's factor left out.
  both({
    provision: "aci318-19/17.7.2.1(c)-edge2",
    row: {
      ...shear,
      concrete_strength_MPa: psi(4000),
      edge_2_mm: inch(5),
      edge_1_mm: inch(6),
      member_thickness_mm: inch(6),
    },
    expected: { V_cbg: [2 * 4_774.5, 0.2] },
  }),
  both({
    provision: "aci318-19/17.7.2.1(c)-edge4",
    row: {
      ...shear,
      concrete_strength_MPa: psi(4000),
      edge_4_mm: inch(5),
      edge_1_mm: inch(6),
      member_thickness_mm: inch(6),
    },
    expected: { V_cbg: [2 * 4_774.5, 0.2] },
  }),
  // R17.7.2.1, two rows of two, 4 in. from the edge, d 1 in., deep concrete: 1.5 x 9 x 60 x 8 in
  // front, 1.2 x 9 x 60 x 10^1.5 behind.
  ...[
    [0, 6, 6_480],
    [1, 6, 12_960],
    [1, 3, 6_480],
  ].map(([option = 0, s = 0, lb = 0]) =>
    both({
      provision: "aci318-19/17.7.2",
      row: { ...ROWS, spacing_x_mm: inch(s) },
      options: { rows_share_shear: option },
      expected: { V_row: exact(6_480), V_cbg: exact(lb) },
    }),
  ),
  both({
    provision: "aci318-19/17.7.2",
    row: { ...ROWS, spacing_x_mm: inch(6) },
    expected: { V_rear: exact(1.2 * 540 * 10 ** 1.5), V_rows: exact(12_960) },
  }),
  both({
    provision: "aci318-19/17.7.2",
    row: { ...ROWS, ...CAST, bar_diameter_mm: inch(1), spacing_x_mm: inch(3) },
    options: { rows_share_shear: 1, headed_cast_in: 1, welded_to_plate: 1 },
    expected: { V_cbg: [((6 + 21) / 21) * 540 * 7 ** 1.5, 1e-6] },
  }),
  // 40/3 x 60 x 2.5 x 30 = 60,000 psi: a stated yield of 55 ksi limits it, one of 80 ksi brings the
  // grade's 1.15, 690 MPa 1.3.
  ...[
    [55_000, 55_000],
    [80_000, 60_000 / 1.15],
    [100_000, 60_000 / 1.3],
  ].map(([fy = 0, stress = 0]) =>
    both({
      provision: "aci318-19/25.4.2",
      expected: { f_s: exact(stress) },
      row: {
        ...CAST,
        bar_diameter_mm: inch(1),
        embedment_mm: inch(30),
        cover_mm: inch(3),
        casting_position: "good",
        bar_yield_MPa: psi(fy),
      },
    }),
  ),
];

// The metric form: 17.7.2.1(c) is twice min(0.6 6.25^0.2 x 4, 3.7) x 5 x 1000, pryout twice 7 x 5 x
// 1000.
const PARALLEL = exact(2 * 0.6 * 6.25 ** 0.2 * 4 * 5000);
const METRIC: readonly Omit<WorkedCapacity, "id" | "kind" | "source" | "code">[] = [
  { provision: "17.6.1.2", row: STEEL, expected: { N_sa: exact(120_000) } },
  {
    provision: "17.5.2.2",
    row: { ...SI, bond_strength_char_MPa: 6 },
    options: { sustained: 1 },
    expected: { N_sus: exact(0.55 * 6 * Math.PI * 1600) },
  },
  {
    provision: "17.6.3.2.2a",
    row: EMBEDDED,
    options: { A_brg: 400 },
    expected: { N_pn: exact(80_000) },
  },
  {
    provision: "17.6.3.2.2b",
    row: EMBEDDED,
    options: { e_h: 60 },
    expected: { N_pn: exact(21_600) },
  },
  { provision: "17.7.1.2", row: { ...STEEL, ...shear }, expected: { V_sa: exact(72_000) } },
  {
    provision: "frp-transverse-shear",
    row: { ...SI, ...shear, bar_shear_strength_MPa: 131 },
    expected: { V_f: exact(26_200) },
  },
  {
    provision: "17.7.2.1(c)-edge2",
    row: { ...SI, ...shear, edge_2_mm: 100, member_thickness_mm: 1000 },
    expected: { V_cbg: PARALLEL },
  },
  {
    provision: "17.7.2.1(c)-edge4",
    row: { ...SI, ...shear, edge_4_mm: 100, member_thickness_mm: 1000 },
    expected: { V_cbg: PARALLEL },
  },
  {
    provision: "17.7.3",
    row: { ...SI, ...shear, bond_strength_char_MPa: 20, bond_strength_uncracked_char_MPa: 20 },
    expected: { V_cpg: exact(70_000) },
  },
];

const EN: readonly Omit<WorkedCapacity, "id" | "kind" | "source" | "code">[] = [
  { provision: "7.2.1.3", row: STEEL, expected: { N_Rk_s: exact(120_000) } },
  { provision: "7.2.1.4", row: SI, expected: { N_Rk_c: exact(38_500) } },
  { provision: "7.2.1.4", row: { ...SI, cracked: "no" }, expected: { N_Rk_c: exact(55_000) } },
  { provision: "7.2.2.3.1", row: { ...STEEL, ...shear }, expected: { V_Rk_s: exact(60_000) } },
  {
    provision: "7.2.2.3.1",
    row: { ...STEEL, ...shear },
    options: { grout_thickness: 20 },
    expected: { V_Rk_s: exact(48_000) },
  },
  // 1.2 (pi 16^3 / 32) 600 / 20, half of it beside half the tension.
  {
    provision: "7.2.2.3.2",
    row: { ...STEEL, ...shear },
    options: { lever_arm: 20 },
    expected: { V_Rk_s_M: [14_476.5, 0.05] },
  },
  {
    provision: "7.2.2.3.2",
    row: { ...STEEL, ...shear },
    options: { lever_arm: 20, tension_share: 0.5 },
    expected: { V_Rk_s_M: [7_238.2, 0.05] },
  },
  {
    provision: "frp-transverse-shear",
    row: { ...SI, ...shear, bar_shear_strength_MPa: 131 },
    expected: { V_f: exact(26_200) },
  },
  {
    provision: "7.2.2.4-headed",
    row: { ...EMBEDDED, ...shear },
    options: { headed_cast_in: 1 },
    expected: { V_Rk_cp: exact(89_000) },
  },
  // A load along edge 2 is shared by both rows, the second 150 mm behind; by option the front row
  // carries it. Edge 1 at 300 mm cuts nothing.
  ...[
    [0, 2],
    [1, 1],
  ].map(([option = 0, rows = 0]) => ({
    provision: "7.2.2.5-edge2",
    row: {
      ...SI,
      ...shear,
      edge_1_mm: 300,
      edge_2_mm: 100,
      group_ny: 2,
      spacing_y_mm: 150,
      member_thickness_mm: 1000,
    },
    options: { front_row_along_edge: option },
    expected: {
      V_Rk_c: [rows * 2 * 1.7 * 16 ** 0.1 * 100 ** (0.1 * 0.16 ** 0.2) * 5 * 1000, 1e-6] as const,
    },
  })),
  // FRP has a design value only by a factor of the user's.
  {
    provision: "7.2.1.3",
    level: "design",
    row: SI,
    options: { gamma_Ms_frp: 1.6 },
    expected: { design_capacity: exact(75_000) },
  },
  // Two pairs 141.2 mm apart, 462.7 mm from each other: side by side in the cone (625.2 mm), apart
  // in bond (s_cr,Np 226.5 mm). A pair:
  // 45,004 N x 1.6234 (areas) x 1.0635 (psi_g of two bars at 141.2 mm), no edge within 113 mm:
  // 77,703 N; the group twice that, pry-out k_8 = 2.
  // A mean spacing of 302 mm over all four would give psi_g = 1 and 292.26 kN: less than the pairs
  // have alone.
  {
    provision: "7.2.2.4",
    expected: {
      s_cr_Np: [226.46, 0.01],
      psi_g_Np: [1.0635, 5e-5],
      N_Rk_p: [155_410, 10],
      N_Rk_c: [168_930, 10],
      V_Rk_cp: [310_820, 10],
    },
    row: {
      ...shear,
      bar_material: "steel",
      bar_diameter_mm: 14,
      concrete_strength_MPa: 21.5,
      embedment_mm: 208.4,
      member_thickness_mm: 299,
      edge_1_mm: 188,
      bond_strength_char_MPa: 4.91,
      bond_strength_uncracked_char_MPa: 4.91,
      group_nx: 2,
      group_ny: 2,
      spacing_x_mm: 141.2,
      spacing_y_mm: 462.7,
    },
  },
  // psi_alpha,V is 2 for a load along the edge.
  {
    provision: "7.2.2.5-edge2",
    row: { ...SI, ...shear, edge_2_mm: 100, member_thickness_mm: 1000 },
    expected: { V_Rk_c: [2 * 1.7 * 16 ** 0.1 * 100 ** (0.1 * 0.16 ** 0.2) * 5 * 1000, 1e-6] },
  },
  {
    provision: "7.2.2.5-edge4",
    row: { ...SI, ...shear, edge_4_mm: 100, member_thickness_mm: 1000 },
    expected: { V_Rk_c: [2 * 1.7 * 16 ** 0.1 * 100 ** (0.1 * 0.16 ** 0.2) * 5 * 1000, 1e-6] },
  },
];

const GUIDES: readonly WorkedCapacity[] = [
  ...["aci440.1r-15/6.2", "aci440.11-22/20.2.2", "aashto-gfrp2-2018/2.4.2.1"].map((provision) =>
    byHand("H", {
      code: provision.slice(0, provision.indexOf("/")),
      provision,
      row: FRP_EMBEDDED,
      options: { C_E: 0.8 },
      expected: {
        N_fu: exact(
          (0.8 * 120_000) / (provision.startsWith("aashto") ? 4448.2216152605 : 4.4482216152605),
        ),
      },
    }),
  ),
  // 60 ((13.6 + 2) 24 + 340) psi at 12 in., d 0.5 in., c_b 1 in.; the same in ksi; 100 x 40 x 5 /
  // (1.15 x 0.8 x 200) MPa; half of 435 MPa at half of 1000 mm.
  byHand("H", {
    code: "aci440.11-22",
    provision: "aci440.11-22/25.4.2",
    row: HALF_INCH,
    expected: { f_fr: exact(42_864) },
  }),
  byHand("H", {
    code: "aashto-gfrp2-2018",
    provision: "aashto-gfrp2-2018/2.9.7.4",
    row: HALF_INCH,
    expected: { f_fr: exact((Math.sqrt(3.6) / 31.6) * 714.4) },
  }),
  byHand("H", {
    code: "csa-s806-12",
    provision: "csa-s806-12/9.3.2",
    row: FRP_EMBEDDED,
    expected: { f_F: exact(20_000 / 184) },
  }),
  byHand("H", {
    code: "en1992-1-1-2023",
    provision: "en1992-1-1-2023/11.4.2",
    level: "design",
    row: { ...EMBEDDED, bar_diameter_mm: 20, cover_mm: 30, embedment_mm: 500 },
    expected: { l_reference: exact(1000), N_sd: exact(43_500) },
  }),
  byHand("H", {
    code: "csa-s806-12",
    provision: "csa-s806-12/frp-rupture",
    row: FRP_EMBEDDED,
    expected: { N_Fu: exact(120_000) },
  }),
  byHand("H", {
    code: "jsce-1997",
    provision: "jsce-1997/frp-rupture",
    row: FRP_EMBEDDED,
    expected: { N_u: exact(120_000) },
  }),
  // 0.3 x 0.85 x 120 kN; 0.25 when cyclic.
  byHand("H", {
    code: "aci440.11-22",
    provision: "aci440.11-22/creep-rupture",
    row: FRP_EMBEDDED,
    options: { C_E: 0.85, sustained: 1 },
    expected: { N_creep: exact(30_600 / 4.4482216152605) },
  }),
  byHand("H", {
    code: "aashto-gfrp2-2018",
    provision: "aashto-gfrp2-2018/creep-rupture",
    row: FRP_EMBEDDED,
    options: { sustained: 2 },
    expected: { N_creep: exact(30_000 / 4448.2216152605) },
  }),
  // 100 x 40 x 2 / 0.45 MPa over 200 mm2 at d_cs 40 mm (2.5 d), f_cr 0.4 x 5 MPa.
  byHand("H", {
    code: "csa-s6-14",
    provision: "csa-s6-14/16.8.4",
    row: FRP_EMBEDDED,
    expected: { f_cr: exact(2), N_developed: exact(8_000 / 0.45) },
  }),
  ...["en1992-1-1-2004/3.2.7", "en1992-1-1-2023/yield", "fib-mc2010/yield"].map((provision) =>
    byHand("H", {
      code: provision.slice(0, provision.indexOf("/")),
      provision,
      row: EMBEDDED,
      expected: { N_y: exact(100_000) },
    }),
  ),
  // 2.5 x 6 MPa on pi 16 x 80 mm2.
  byHand("H", {
    code: "fib-mc2010",
    provision: "fib-mc2010/6.1.1-pull-out",
    level: "expected",
    row: { ...EMBEDDED, concrete_strength_MPa: 36, embedment_mm: 80 },
    expected: { tau_b_max: exact(15), N_po: exact(15 * Math.PI * 16 * 80) },
  }),
  // As published 6.5 x 8^0.33 MPa on pi 25 x 100 mm2; by option capped by 2.5 x 5 MPa.
  ...[
    [0, 6.5 * 8 ** 0.33],
    [1, 12.5],
  ].map(([option = 0, stress = 0]) =>
    byHand("H", {
      code: "fib-mc2010",
      provision: "fib-mc2010/6.1.1-splitting",
      level: "expected",
      row: { ...EMBEDDED, bar_diameter_mm: 25, cover_mm: 200 },
      options: { splitting_capped: option },
      expected: {
        N_sp: exact(stress * Math.PI * 2500),
        tau_split: exact(6.5 * 8 ** 0.33),
        tau_capped: exact(12.5),
      },
    }),
  ),
  // A stated yield of 550 MPa in place of the option's 500.
  ...["en1992-1-1-2004/3.2.7", "en1992-1-1-2023/yield", "fib-mc2010/yield"].map((provision) =>
    byHand("H", {
      code: provision.slice(0, provision.indexOf("/")),
      provision,
      row: { ...EMBEDDED, bar_yield_MPa: 550 },
      expected: { N_y: exact(110_000) },
    }),
  ),
  // No. 5, f'c 4000 psi, C/d 2.1: linear from 20 diameters, and the equation extrapolated; kN over
  // 199 mm2.
  ...[
    [1, 2.84, 30.9],
    [5, 14.2, 36.3],
    [10, 28.4, 43.1],
  ].flatMap(([times = 0, linear = 0, whole = 0]) =>
    [
      [0, linear],
      [1, whole],
    ].map(([option = 0, kN = 0]) =>
      byHand("H", {
        code: "aci440.1r-15",
        provision: "aci440.1r-15/10.1",
        options: { extrapolate_below_20_d: option },
        expected: { N_fe: [kN / 0.0044482216152605, (0.006 * kN) / 0.0044482216152605] },
        row: {
          ...FRP_EMBEDDED,
          bar_diameter_mm: inch(0.625),
          bar_area_mm2: 199,
          cover_mm: inch(1),
          concrete_strength_MPa: psi(4000),
          embedment_mm: inch(0.625 * times),
          bar_strength_MPa: 5000,
        },
      }),
    ),
  ),
  // 1.75 MPa on pi 16 x 100 mm2 at 25 MPa.
  byHand("H", {
    code: "fib-mc2010",
    provision: "fib-mc2010/6.1.3",
    row: EMBEDDED,
    expected: { N_b_0: exact(1.75 * Math.PI * 1600) },
  }),
];

const MEANS: readonly WorkedCapacity[] = [
  // 35 x 60 x 8 lb, 0.7 of it in a crack; 13.5 x 6 x 1000 N at 36 MPa of cube strength.
  byHand("H", {
    code: "ccd-1995",
    provision: "ccd-1995/tension",
    level: "expected",
    row: { ...US, embedment_mm: inch(4), cracked: "no" },
    expected: { N_um: exact(16_800) },
  }),
  byHand("H", {
    code: "ccd-1995",
    provision: "ccd-1995/tension",
    level: "expected",
    row: { ...US, embedment_mm: inch(4) },
    expected: { N_um: exact(11_760) },
  }),
  byHand("H", {
    code: "uniform-bond-1998",
    provision: "uniform-bond-1998/cone",
    level: "expected",
    row: { ...SI, concrete_strength_MPa: 36 * 0.85, cracked: "no" },
    expected: { N_um: exact(81_000) },
  }),
  byHand("H", {
    code: "uniform-bond-1998",
    provision: "uniform-bond-1998/bar-rupture",
    level: "expected",
    row: SI,
    expected: { N_u: exact(120_000) },
  }),
  byHand("H", {
    code: "aci318-19",
    provision: "aci318-19/frp-transverse-shear",
    level: "expected",
    row: { ...US, ...shear, bar_shear_strength_MPa: psi(20_000) },
    expected: { V_f: exact(6_200) },
  }),
];

/** Capacities computed on paper. */
export const BY_HAND: readonly WorkedCapacity[] = [
  ...ACI,
  ...METRIC.map(({ provision, ...of }) =>
    byHand("H", { code: "aci318-19m", provision: `aci318-19/${provision}`, ...of }),
  ),
  ...EN.map(({ provision, ...of }) =>
    byHand("H", { code: "en1992-4-2018", provision: `en1992-4-2018/${provision}`, ...of }),
  ),
  ...GUIDES,
  ...MEANS,
  ...FURTHER,
];
