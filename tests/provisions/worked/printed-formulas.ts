import { inch, psi, squareInch } from "../specimens";
import type { WorkedCapacity, WorkedLength } from "./case";

const WORKED = "worked on paper from the formula as printed on";
const steel = {
  bar_material: "steel",
  bar_surface: "ribbed",
  bar_strength_specified_MPa: null,
} as const;
const embedded = { ...steel, installation: "cast_in", casting_position: "good" } as const;

/** Capacities from formulas that a published page prints, for provisions that were from memory. */
export const PRINTED_CAPACITIES: readonly WorkedCapacity[] = [
  {
    // 2 bars, (1 - 0.01 x 30) x 0.8 x 0.5 x 200 x 600 N.
    id: "P1",
    kind: "from memory",
    code: "en1992-4-2018",
    provision: "en1992-4-2018/7.2.2.3.1",
    source:
      "on paper from memory of the clause: V_Rk,s = (1 - 0.01 t_grout) k_7 V0_Rk,s, k_7 = 0.8 for elongations up to 8 %",
    row: {
      ...steel,
      action: "shear",
      setup: "direct_shear",
      cracked: "no",
      bar_diameter_mm: 16,
      bar_area_mm2: 200,
      bar_strength_MPa: 600,
      group_nx: 2,
      spacing_x_mm: 200,
    },
    options: { grout_thickness: 30, low_ductility: 1 },
    expected: { psi_grout: [0.7, 1e-12], k_7: [0.8, 1e-12], V_Rk_s: [67_200, 1e-6] },
  },
  {
    // (1.2 + 3 x 30/20 + 50 x 20/400) x 0.083 x 6 = 4.0836 MPa = 592.28 psi; 0.083 is rounded by
    // 0.04 %.
    id: "P2",
    kind: "constructed",
    code: "orangun-1977",
    provision: "orangun-1977/bond",
    level: "expected",
    source: `${WORKED} ijcsm.springeropen.com/articles/10.1186/s40069-022-00536-6/tables/1 (in MPa)`,
    row: {
      ...embedded,
      bar_diameter_mm: 20,
      cover_mm: 30,
      embedment_mm: 400,
      concrete_strength_MPa: 36,
    },
    expected: { u: [592.28, 0.3] },
  },
  {
    // 10,000^(1/4) = 10 times (59.9 x 20 x 2 + 2400 x 0.79); 10,000^(3/4) = 1000 times (30.88 x
    // 0.97792 x 0.1 + 3).
    id: "P3",
    kind: "constructed",
    code: "aci408r-03",
    provision: "aci408r-03/bond",
    level: "expected",
    source:
      "on paper; the powers 1/4 and 3/4 of f'c are in the institute's abstract of the report, concrete.org/Store/ProductDetail.aspx?ItemID=40803; the coefficients are from memory",
    row: {
      ...embedded,
      bar_diameter_mm: inch(1),
      bar_area_mm2: squareInch(0.79),
      cover_mm: inch(1.5),
      embedment_mm: inch(20),
      concrete_strength_MPa: psi(10_000),
    },
    options: { transverse_area: squareInch(0.1) },
    expected: { T_c: [42_920, 0.01], T_s: [6019.8, 0.05] },
  },
];

/** The same for development lengths. */
export const PRINTED_LENGTHS: readonly WorkedLength[] = [
  {
    // 16 (1.5 x 400/(0.083 x 6) - 340) / (13.6 + 40/16) mm, the rounding of 0.083 given to the
    // stress.
    id: "P4",
    kind: "constructed",
    rule: "aci440.1r-15/10.3",
    source: `${WORKED} what-when-how.com, Reinforced Concrete with FRP Bars, p. 129, equation (4.59) (ACI 440.1R-06, SI units)`,
    given: {
      f_required: (400 * Math.sqrt(psi(1))) / 0.083,
      d_a: 16,
      f_c: 36,
      c_cover: 32,
      gfrp: 1,
      frp: 1,
      top_cast: 1,
    },
    length: [859.448, 0.001],
  },
];
