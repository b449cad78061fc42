import type { Quantity } from "../model/unit-system";
import { whether } from "../model/yes-or-no";

/** One quantity that formulas may read: where it comes from and what a blank means. */
export interface InputDefinition {
  readonly quantity: Quantity;
  readonly meaning: string;
  /** The column of the data contract it comes from; absent for derived flags. */
  readonly column?: string;
  /** The value of a blank; absent when a blank makes the provision not applicable. */
  readonly blank?: number;
}

const flag = (meaning: string, column?: string): InputDefinition => ({
  quantity: "number",
  meaning: whether(meaning),
  ...(column ? { column } : {}),
});

/**
 * Every symbol a formula may read without defining it. Edges: blank is far (infinity). Edge 1 is
 * normal to x and is the edge that shear acts towards; edge 3 is opposite; 2 and 4 lie along y.
 */
export const INPUTS = {
  h_ef: {
    quantity: "length",
    meaning: "embedment depth, or bonded length of a bond test",
    column: "embedment_mm",
  },
  d_a: { quantity: "length", meaning: "bar diameter", column: "bar_diameter_mm" },
  d_0: { quantity: "length", meaning: "diameter of the drilled hole", column: "hole_diameter_mm" },
  A_b: {
    quantity: "area",
    meaning: "cross-sectional area of the bar; from the diameter when blank",
    column: "bar_area_mm2",
  },
  f_u: {
    quantity: "stress",
    meaning:
      "tensile strength of the bar: measured at the expected level; specified (or measured, if none) at the nominal and design levels",
    column: "bar_strength_MPa",
  },
  f_u_cap: {
    quantity: "stress",
    meaning:
      "tensile strength of the bar as a limit on the stress developed; where none is stated, no limit applies",
    column: "bar_strength_MPa",
    blank: Infinity,
  },
  f_y: { quantity: "stress", meaning: "yield strength of the bar", column: "bar_yield_MPa" },
  f_y_cap: {
    quantity: "stress",
    meaning:
      "yield strength of the bar where it limits the tensile strength in a clause; if blank, no such limit applies",
    column: "bar_yield_MPa",
    blank: Infinity,
  },
  f_y_stated: {
    quantity: "stress",
    meaning: "yield strength of the bar where stated; 0 otherwise",
    column: "bar_yield_MPa",
    blank: 0,
  },
  f_v: {
    quantity: "stress",
    column: "bar_shear_strength_MPa",
    meaning:
      "transverse shear strength of the bar: measured at the expected level; specified (or measured, if none) at the nominal and design levels",
  },
  E_b: { quantity: "modulus", meaning: "elastic modulus of the bar", column: "bar_modulus_GPa" },
  f_c: {
    quantity: "stress",
    meaning: "concrete cylinder strength",
    column: "concrete_strength_MPa",
  },
  lambda: {
    quantity: "number",
    meaning: "lightweight factor of the concrete; 1 for normal weight",
    column: "lightweight_factor",
  },
  tau_k: {
    quantity: "stress",
    meaning:
      "characteristic bond stress of the adhesive in the concrete of the row, cracked or uncracked",
    column: "bond_strength_char_MPa",
  },
  tau_uncr: {
    quantity: "stress",
    meaning: "characteristic bond stress of the adhesive in uncracked concrete",
    column: "bond_strength_uncracked_char_MPa",
  },
  tau_uncr_stated: {
    quantity: "stress",
    meaning:
      "characteristic bond stress of the adhesive in uncracked concrete where stated; 0 otherwise",
    column: "bond_strength_uncracked_char_MPa",
    blank: 0,
  },
  tau_mean: {
    quantity: "stress",
    meaning: "mean bond stress of the adhesive or bar, when known",
    column: "bond_strength_mean_MPa",
  },
  tau_mean_stated: {
    quantity: "stress",
    meaning: "mean bond stress where stated; 0 otherwise",
    column: "bond_strength_mean_MPa",
    blank: 0,
  },
  c_1: { quantity: "length", meaning: "distance to edge 1", column: "edge_1_mm", blank: Infinity },
  c_2: { quantity: "length", meaning: "distance to edge 2", column: "edge_2_mm", blank: Infinity },
  c_3: { quantity: "length", meaning: "distance to edge 3", column: "edge_3_mm", blank: Infinity },
  c_4: { quantity: "length", meaning: "distance to edge 4", column: "edge_4_mm", blank: Infinity },
  h_a: { quantity: "length", meaning: "thickness of the member", column: "member_thickness_mm" },
  n_x: {
    quantity: "number",
    meaning: "bars across (normal to edge 1)",
    column: "group_nx",
    blank: 1,
  },
  n_y: {
    quantity: "number",
    meaning: "bars along (parallel to edge 1)",
    column: "group_ny",
    blank: 1,
  },
  s_x: {
    quantity: "length",
    meaning: "spacing across; 0 for one bar across",
    column: "spacing_x_mm",
  },
  s_y: {
    quantity: "length",
    meaning: "spacing along; 0 for one bar along",
    column: "spacing_y_mm",
  },
  e_x: {
    quantity: "length",
    meaning: "eccentricity of the load across",
    column: "eccentricity_x_mm",
    blank: 0,
  },
  e_y: {
    quantity: "length",
    meaning: "eccentricity of the load along",
    column: "eccentricity_y_mm",
    blank: 0,
  },
  l_a: {
    quantity: "length",
    meaning: "lever arm of the shear; 0 for none",
    column: "lever_arm_mm",
    blank: 0,
  },
  restraint: {
    quantity: "number",
    meaning:
      "restraint of the attached part: 1 free to rotate, 2 fully restrained; 0 if not stated",
    column: "lever_restraint",
    blank: 0,
  },
  t_grout: {
    quantity: "length",
    meaning: "thickness of grout under the attached part; 0 for none",
    column: "grout_thickness_mm",
    blank: 0,
  },
  c_cover: { quantity: "length", meaning: "clear cover", column: "cover_mm" },
  s_clear: {
    quantity: "length",
    meaning: "clear spacing between bars; remote if blank",
    column: "bar_spacing_mm",
    blank: Infinity,
  },
  top_cast: flag("more than 300 mm of fresh concrete was placed below the bar", "casting_position"),
  cracked: { quantity: "number", meaning: whether("the concrete was cracked"), column: "cracked" },
  lightweight: flag("the concrete is lightweight", "concrete_type"),
  post_installed: flag("the bar was bonded into a drilled hole", "installation"),
  steel: flag("the bar is steel", "bar_material"),
  gfrp: flag("the bar is glass FRP", "bar_material"),
  bfrp: flag("the bar is basalt FRP", "bar_material"),
  cfrp: flag("the bar is carbon FRP", "bar_material"),
  afrp: flag("the bar is aramid FRP", "bar_material"),
  frp: flag("the bar is FRP of any fiber", "bar_material"),
  ribbed: flag("the surface is ribbed", "bar_surface"),
  sand_coated: flag("the surface is sand-coated", "bar_surface"),
  helically_wrapped: flag("the surface is helically wrapped", "bar_surface"),
  sand_coated_helical: flag("the surface is helically wrapped and sand-coated", "bar_surface"),
  indented: flag("the surface is indented", "bar_surface"),
  plain: flag("the surface is plain", "bar_surface"),
  threaded: flag("the surface is threaded", "bar_surface"),
  surface_unknown: flag("the surface is not known", "bar_surface"),
} as const satisfies Record<string, InputDefinition>;

export type InputName = keyof typeof INPUTS;

/** Whether a symbol is an input (rather than a step of a provision). */
export function isInput(name: string): name is InputName {
  return Object.hasOwn(INPUTS, name);
}
