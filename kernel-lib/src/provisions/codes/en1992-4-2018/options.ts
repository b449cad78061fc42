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
    "factor for installation safety in tension: 1.0, 1.2 or 1.4; 1.0 always holds in shear",
    "4.4",
  ),
  yield_ratio: number(
    0.8,
    "f_yk / f_uk of the steel, for its partial factor; in shear FRP, which does not yield, is taken with 1",
    "4.4",
  ),
  headed_cast_in: flag(
    "breakout of a cast-in bar is to be computed as if it were headed; a straight bar has no head",
    "7.2.1.4",
  ),
  dense_reinforcement: flag(
    "reinforcement is so dense that a shallow cone may spall: neither spaced 150 mm or more, nor 100 mm or more with bars up to 10 mm",
    "7.2.1.4(7)",
  ),
  compression_lever_arm: {
    quantity: "length",
    value: 0,
    meaning:
      "lever arm z between the bars' tension and the compression of the attached part; 0 where no compression acts beside the cone",
    clause: "7.2.1.4(9)",
  },
  sustained_share: number(0, "sustained share alpha_sus of the tension", "7.2.1.6"),
  psi_sus_0: number(0.6, "product value for sustained tension; 0.6 without one", "7.2.1.6"),
  c_cr_sp_ratio: number(
    0,
    "the product's characteristic edge distance for splitting, in embedments; 0 not stated",
    "7.2.1.7",
  ),
  h_min: {
    quantity: "length",
    value: 0,
    meaning:
      "the product's least member thickness; 0 not stated, which gives no increase for thickness",
    clause: "7.2.1.7",
  },
  splitting_with_factors: flag(
    "the bond strength that enters splitting carries its own edge and group factors, N_Rk,p; else it is that of one bar far from edges, N0_Rk,p",
    "7.2.1.7",
  ),
  splitting_reinforced: flag(
    "the design is for cracked concrete and reinforcement keeps splitting cracks within 0.3 mm",
    "7.2.1.7",
  ),
  k_8: number(0, "pry-out factor of the product; 0: 1 below 60 mm of embedment, else 2", "7.2.2.4"),
  supplementary_reinforcement: flag(
    "supplementary reinforcement is present (pry-out is then reduced)",
    "7.2.2.4",
  ),
  load_angle: number(0, "angle of the shear to the normal of edge 1, degrees, 0 to 90", "7.2.2.5"),
  front_row_along_edge: flag(
    "the row next to an edge alone carries a load that runs along it; else all fasteners share it",
    "6.2.2.2",
  ),
  gamma_Ms_frp: number(
    NaN,
    "partial factor of an FRP bar in tension, which the code does not state; without it no design value is given",
    "4.4",
  ),
  edge_reinforcement: flag(
    "the edge is reinforced with closely spaced stirrups, at 100 mm or closer",
    "7.2.2.5",
  ),
  low_ductility: flag("the steel's rupture elongation is 8 % or less", "7.2.2.3.1"),
  literal_steel_shear: flag(
    "the steel clause's share of the tensile strength is to be taken literally for FRP",
    "7.2.2.3.1",
  ),
  grout_thickness: {
    quantity: "length",
    value: 0,
    meaning:
      "grout between the attached part and the concrete, for rows that state none (column grout_thickness_mm), at most 40 mm; counts where it is thicker than half a diameter (to be checked against a licensed copy)",
    clause: "7.2.2.3.1",
  },
  tension_share: number(
    0,
    "tension acting beside the shear over the bar's design strength in tension, N_Ed / N_Rd,s",
    "7.2.2.3.2",
  ),
  interaction_form: number(
    0,
    "tension and shear together, failures other than of steel: 0 power 1.5, 1 straight lines with the sum of 1.2",
    "Table 7.3",
  ),
  lever_arm: {
    quantity: "length",
    value: 0,
    meaning:
      "lever arm l_a of a shear that acts at a distance, for rows that state none (column lever_arm_mm); 0 none",
    clause: "7.2.2.3.2",
  },
  alpha_M: number(
    1,
    "restraint of the attached part, for rows that state none (column lever_restraint): 1 free to rotate, 2 fully restrained",
    "7.2.2.3.2",
  ),
} as const satisfies Record<string, CodeOption>;
