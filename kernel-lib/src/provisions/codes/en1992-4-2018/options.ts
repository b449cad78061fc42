import type { CodeOption } from "../../model/definition";
import { whether } from "../../model/yes-or-no";

const flag = (meaning: string, clause: string): CodeOption => ({
  quantity: "number",
  value: 0,
  meaning: whether(meaning),
  clause,
});
const number = (value: number, meaning: string, clause: string): CodeOption => ({
  quantity: "number",
  value,
  meaning,
  clause,
});

/** What the user of the code may state. Every default is the plain case that claims nothing. */
export const OPTIONS = {
  gamma_c: number(1.5, "partial factor of concrete", "4.4"),
  gamma_inst: number(
    1,
    "installation safety factor in tension: 1.0, 1.2 or 1.4; always 1.0 in shear",
    "4.4",
  ),
  yield_ratio: number(
    0.8,
    "f_yk / f_uk of the steel, for its partial factor; 1 is used for FRP in shear, since FRP does not yield",
    "4.4",
  ),
  headed_cast_in: flag("a cast-in bar is treated as headed for concrete breakout", "7.2.1.4"),
  dense_reinforcement: flag(
    "reinforcement is dense enough for shell spalling: spaced less than 150 mm, or less than 100 mm with bars of at most 10 mm",
    "7.2.1.4(7)",
  ),
  compression_lever_arm: {
    quantity: "length",
    value: 0,
    meaning:
      "lever arm z between the tension in the bars and the compression under the attached part; 0 where no compression acts near the cone",
    clause: "7.2.1.4(9)",
  },
  sustained_share: number(0, "sustained fraction alpha_sus of the tension", "7.2.1.6"),
  psi_sus_0: number(0.6, "product value for sustained tension; 0.6 without one", "7.2.1.6"),
  c_cr_sp_ratio: number(
    0,
    "characteristic edge distance for splitting from the product approval, as a multiple of the embedment; 0 if not stated",
    "7.2.1.7",
  ),
  h_min: {
    quantity: "length",
    value: 0,
    meaning:
      "minimum member thickness from the product approval; 0 if not stated, for which no increase for thickness is applied",
    clause: "7.2.1.7",
  },
  splitting_with_factors: flag(
    "the bond strength used in splitting includes its own edge and group factors, N_Rk,p; otherwise it is that of one bar remote from edges, N0_Rk,p",
    "7.2.1.7",
  ),
  splitting_reinforced: flag(
    "the design is for cracked concrete and reinforcement limits splitting cracks to 0.3 mm",
    "7.2.1.7",
  ),
  k_8: number(
    0,
    "pry-out factor of the product; with 0, 1 is used below an embedment of 60 mm and 2 from there on",
    "7.2.2.4",
  ),
  supplementary_reinforcement: flag(
    "supplementary reinforcement is present (which reduces pry-out resistance)",
    "7.2.2.4",
  ),
  load_angle: number(
    0,
    "angle between the shear and the normal to edge 1, degrees, 0 to 90",
    "7.2.2.5",
  ),
  front_row_along_edge: flag(
    "only the row nearest an edge resists a load along it; otherwise all fasteners share it",
    "6.2.2.2",
  ),
  gamma_Ms_frp: number(
    NaN,
    "partial factor of an FRP bar in tension, which the code does not state; without it, no design resistance is given",
    "4.4",
  ),
  edge_reinforcement: flag(
    "the edge is reinforced with stirrups at a spacing of at most 100 mm",
    "7.2.2.5",
  ),
  low_ductility: flag("the rupture elongation of the steel is at most 8 %", "7.2.2.3.1"),
  literal_steel_shear: flag(
    "the steel clause (a fraction of the tensile strength) is applied literally to FRP",
    "7.2.2.3.1",
  ),
  grout_thickness: {
    quantity: "length",
    value: 0,
    meaning:
      "thickness of grout under the attached part, at most 40 mm, for rows without grout_thickness_mm; considered if thicker than half a diameter (to be checked against a licensed copy)",
    clause: "7.2.2.3.1",
  },
  tension_share: number(
    0,
    "ratio of the tension acting with the shear to the design resistance of the bar in tension, N_Ed / N_Rd,s",
    "7.2.2.3.2",
  ),
  interaction_form: number(
    0,
    "interaction of tension and shear, failures other than of steel: 0 power 1.5, 1 straight lines with the sum 1.2",
    "Table 7.3",
  ),
  lever_arm: {
    quantity: "length",
    value: 0,
    meaning: "lever arm l_a of the shear, for rows without lever_arm_mm; 0 for none",
    clause: "7.2.2.3.2",
  },
  alpha_M: number(
    1,
    "restraint of the attached part, for rows without lever_restraint: 1 free to rotate, 2 fully restrained",
    "7.2.2.3.2",
  ),
} as const satisfies Record<string, CodeOption>;
