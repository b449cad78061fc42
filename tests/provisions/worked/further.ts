import { psi, squareInch, inch } from "../specimens";
import { byHand, type Printed, type WorkedCapacity } from "./case";

// 36 MPa of 200 mm cube strength has the root 6, 25 MPa the root 5; 16 mm squared is 256.
const shear = { action: "shear", setup: "direct_shear" } as const;
const BAR = {
  bar_diameter_mm: 16,
  bar_area_mm2: 200,
  concrete_strength_MPa: 25,
  embedment_mm: 100,
  bar_strength_MPa: 600,
  bar_strength_specified_MPa: null,
} as const;
const STEEL = { ...BAR, ...shear, bar_material: "steel", bar_surface: "ribbed" } as const;
const CUBE = { ...BAR, concrete_strength_MPa: 36 * 0.85, cracked: "no" } as const;
const DOWEL = { ...STEEL, bar_yield_MPa: 400 } as const;
const FRP_DOWEL = { ...BAR, ...shear, bar_strength_MPa: 625, bar_shear_strength_MPa: 200 } as const;
const NEAR_FACE = {
  ...BAR,
  bar_material: "steel",
  bar_surface: "ribbed",
  setup: "beam_end",
  bar_diameter_mm: 25,
  embedment_mm: 175,
  cover_mm: 25,
  bond_strength_char_MPa: 9,
  casting_position: "good",
} as const;
const PRODUCT = { A_k: 4, sp1: 0.5, sp2: 0.5, sp3: 0.5, sp4: 0.5, lb1: 0.5 };
const exact = (value: number): Printed => [value, Math.abs(value) * 1e-9];
const mean = (
  provision: string,
  row: WorkedCapacity["row"],
  expected: WorkedCapacity["expected"],
  options: WorkedCapacity["options"] = {},
  code = "",
): WorkedCapacity =>
  byHand("H", {
    code: code || provision.slice(0, provision.indexOf("/")),
    provision,
    level: "expected",
    row,
    options,
    expected,
  });
const splitting = (
  row: WorkedCapacity["row"],
  tau: number,
  options: WorkedCapacity["options"] = {},
): WorkedCapacity =>
  byHand("H", {
    code: "eota-tr069-2019",
    provision: "eota-tr069-2019/splitting",
    row: { ...NEAR_FACE, ...row },
    options: { ...PRODUCT, ...options },
    expected: { tau_Rk_sp: exact(tau) },
  });

const quarter = (13.5 * 60) / (16 * Math.PI) / 4;

/** More capacities computed on paper: what closes gaps of the equation sheet. */
export const FURTHER: readonly WorkedCapacity[] = [
  // Every bracket is 1; a quarter of the length factor's base; four diameters of cover; other bond;
  // transverse bars 12 x 0.05.
  splitting({}, 4),
  splitting({ embedment_mm: 700 }, 2),
  splitting({ embedment_mm: 700, cover_mm: 100 }, 4),
  splitting({ casting_position: "top" }, 2.8),
  splitting({}, 6.4, { K_tr: 0.05 }),
  // Half the clear spacing below the cover, the cover ratio 4: 4 x (0.5 x 4)^0.5 with 12.5 mm.
  splitting({ bar_spacing_mm: 25 }, 4 * Math.sqrt(2), { cover_ratio: 4 }),
  // Pull-out before splitting: 3 MPa, and half of it at four times 20 diameters, where splitting
  // itself is at 4 x (7/80)^0.5 x 4.
  splitting({ bond_strength_char_MPa: 3 }, 3),
  splitting({ bond_strength_char_MPa: 3, embedment_mm: 2000, cover_mm: 400 }, 1.5),
  byHand("H", {
    code: "eota-tr069-2019",
    provision: "eota-tr069-2019/cone",
    row: BAR,
    expected: { N_Rk_c: exact(38_500) },
  }),
  byHand("H", {
    code: "eota-tr069-2019",
    provision: "eota-tr069-2019/yield",
    row: { ...NEAR_FACE, bar_yield_MPa: 550 },
    expected: { N_y: exact(110_000) },
  }),

  // 13.5 x 6 x 1000 N, twice; 13.5 x 6 x 125 N once at 25 mm; bond of 5 MPa on pi 16 x 100 mm2,
  // twice.
  mean("pryout-1995/cone", { ...CUBE, ...shear }, { V_um: exact(162_000) }),
  mean("pryout-1995/cone", { ...CUBE, ...shear, embedment_mm: 25 }, { V_um: exact(10_125) }),
  mean("pryout-1995/cone", { ...CUBE, ...shear }, { V_um: exact(121_500) }, { k_cp: 1.5 }),
  mean(
    "pryout-1995/bonded",
    { ...CUBE, ...shear, bond_strength_mean_MPa: 5 },
    { V_um: exact(2 * 5 * Math.PI * 1600) },
  ),
  mean(
    "pryout-1995/bonded",
    { ...CUBE, ...shear, bond_strength_mean_MPa: 50 },
    { V_um: exact(162_000) },
  ),

  // Four bars a quarter of s_cr apart at a quarter of the stress at which the cone governs: 2 - 1/8
  // = 1.875, then 1.875 - 0.5 x 0.875.
  mean(
    "uniform-bond-2006/bond",
    {
      ...CUBE,
      bond_strength_mean_MPa: quarter,
      group_nx: 2,
      group_ny: 2,
      spacing_x_mm: 80 * Math.sqrt(quarter / 10),
      spacing_y_mm: 80 * Math.sqrt(quarter / 10),
    },
    { tau_max: exact(4 * quarter), psi_g_0: exact(1.875), psi_g: exact(1.4375) },
  ),
  mean("uniform-bond-2006/cone", CUBE, { N_um: exact(81_000) }),
  mean("uniform-bond-2006/bar-rupture", BAR, { N_u: exact(120_000) }),

  // 16.8 x 50 x 20 x 6; 0.7 of it in a crack; half of it in a corner.
  ...[
    ["no", null, 1],
    ["yes", null, 0.7],
    ["no", 50, 0.5],
  ].map(([cracked, corner, share]) =>
    mean(
      "ccd-1995/side-face",
      {
        ...CUBE,
        installation: "cast_in",
        embedment_mm: 200,
        edge_1_mm: 50,
        edge_2_mm: corner as number | null,
        cracked: cracked as "yes" | "no",
      },
      { N_u: exact(100_800 * Number(share)) },
      { A_brg: 400 },
      "ccd-1995-cube",
    ),
  ),

  // 1.3 x 256 x 100 N at the surface; half of it where 1.3 eps is 0.75, and at twice that arm where
  // the part cannot rotate.
  mean("dowel-1986/steel", DOWEL, { V_u: exact(33_280) }),
  mean("dowel-1986/steel", { ...DOWEL, lever_arm_mm: 16 / 1.3 }, { V_u: exact(16_640) }),
  mean(
    "dowel-1986/steel",
    { ...DOWEL, lever_arm_mm: 32 / 1.3, lever_restraint: 2 },
    { V_u: exact(16_640) },
  ),
  // Sheared before it bends: 100 mm2 x 400 / 3^0.5.
  mean("dowel-1986/steel", { ...DOWEL, bar_area_mm2: 100 }, { V_u: exact(40_000 / Math.sqrt(3)) }),
  // 256 x 125 x (10 pi/32)^0.5; area times transverse strength where that is less.
  mean("dowel-1986/frp", FRP_DOWEL, { V_u: exact(32_000 * Math.sqrt((10 * Math.PI) / 32)) }),
  mean("dowel-1986/frp", { ...FRP_DOWEL, bar_shear_strength_MPa: 100 }, { V_u: exact(20_000) }),
  // V e + V^2 / (2 q) = M at q = 2000 N/mm: with e = 10 mm, V = 2000 x ((100 + M / 1000)^0.5 - 10).
  mean(
    "dowel-1986/frp",
    { ...FRP_DOWEL, lever_arm_mm: 10 },
    { V_u: exact(2000 * (Math.sqrt(100 + (Math.PI * 4096 * 625) / 32_000) - 10)) },
  ),

  // The row's own lever arm and grout: as the options give, twice where it is held.
  byHand("H", {
    code: "en1992-4-2018",
    provision: "en1992-4-2018/7.2.2.3.2",
    row: { ...STEEL, lever_arm_mm: 20 },
    options: { lever_arm: 90 },
    expected: { V_Rk_s_M: [14_476.5, 0.05] },
  }),
  byHand("H", {
    code: "en1992-4-2018",
    provision: "en1992-4-2018/7.2.2.3.2",
    row: { ...STEEL, lever_arm_mm: 20, lever_restraint: 2 },
    expected: { V_Rk_s_M: [28_952.9, 0.05] },
  }),
  byHand("H", {
    code: "en1992-4-2018",
    provision: "en1992-4-2018/7.2.2.3.1",
    row: { ...STEEL, grout_thickness_mm: 20 },
    expected: { V_Rk_s: exact(48_000) },
  }),
  byHand("H", {
    code: "aci318-19",
    provision: "aci318-19/17.7.1.2",
    expected: { V_sa: exact(13_392) },
    row: {
      ...STEEL,
      bar_area_mm2: squareInch(0.31),
      bar_strength_MPa: psi(90_000),
      bar_yield_MPa: psi(60_000),
      grout_thickness_mm: inch(1),
    },
  }),
];
