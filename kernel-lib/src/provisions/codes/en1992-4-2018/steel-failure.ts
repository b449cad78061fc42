import {
  reported,
  required,
  step,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";
import { steelShearFactor, steelTensionFactor } from "./partial-factors";

/**
 * Steel failure in tension, 7.2.1.3: N_Rk,s = n A_s f_uk (N, mm, MPa). For an FRP bar the same
 * product is its rupture force; the code does not cover FRP.
 */
export const steelInTension: ProvisionDefinition = {
  id: "en1992-4-2018/7.2.1.3",
  title: "Steel failure in tension",
  action: "tension",
  modes: ["bar_rupture", "yield"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [],
  steps: [
    step(
      "N_Rk_s",
      "n_x * n_y * A_b * f_u",
      "force",
      "7.2.1.3",
      "characteristic bar strength in tension",
    ),
  ],
  capacity: "N_Rk_s",
  reduction: steelTensionFactor,
};

/** The lever arm that the row states, else that of the option. */
const leverArm: Step = {
  ...step(
    "l_a_used",
    "if(l_a > 0, l_a, lever_arm)",
    "length",
    "7.2.2.3.2",
    "lever arm: the row's, else option lever_arm",
  ),
  concerns: "l_a > 0 || lever_arm > 0",
};

/**
 * Steel failure in shear without lever arm, 7.2.2.3.1: V_Rk,s = n k_7 k_6 A_s f_uk, k_6 = 0.6 up to
 * 500 MPa, 0.5 up to 1000 MPa. k_7 = 0.8 for groups of low-ductility bars (elongation at rupture up
 * to 8 %), else 1 (that a single bar takes 1 is to be checked against a licensed copy). Grout
 * thicker than half a diameter, up to 40 mm, takes 1 - 0.01 t_grout (both from memory).
 */
export const steelInShear: ProvisionDefinition = {
  id: "en1992-4-2018/7.2.2.3.1",
  title: "Steel failure in shear without lever arm",
  action: "shear",
  modes: ["bar_shear"],
  confidence: "M",
  toCheck:
    "that k_7 applies only to groups of low ductility, and the rules for grout; the rest is well known",
  searched: "November 2026",
  levels: ["nominal", "design"],
  limits: [
    required(
      "7.2.2.3.1",
      "steel == 1 || literal_steel_shear == 1",
      "the clause covers steel only; for FRP, use the area times the transverse shear strength, or option literal_steel_shear",
    ),
    required("7.2.2.3.1", "f_u <= 1000", "for f_uk of at most 1000 MPa"),
    required("7.2.2.3.2", "l_a_used == 0", "the shear acts with a lever arm"),
    required(
      "7.2.2.3.1",
      "t_grout_used <= 40",
      "grout thicker than 40 mm requires a lever arm (to be checked against a licensed copy)",
    ),
  ],
  steps: [
    leverArm,
    {
      ...step(
        "t_grout_used",
        "if(t_grout > 0, t_grout, grout_thickness)",
        "length",
        "7.2.2.3.1",
        "grout: the row's, else option grout_thickness",
      ),
      concerns: "t_grout > 0 || grout_thickness > 0",
    },
    step(
      "k_6",
      "if(f_u <= 500, 0.6, 0.5)",
      "number",
      "7.2.2.3.1",
      "fraction of the tensile strength",
    ),
    step(
      "k_7",
      "if(low_ductility == 1 && n_x * n_y > 1, 0.8, 1)",
      "number",
      "7.2.2.3.1",
      "factor for ductility",
    ),
    step(
      "psi_grout",
      "if(t_grout_used > d_a / 2, 1 - 0.01 * t_grout_used, 1)",
      "number",
      "7.2.2.3.1",
      "factor for grout (to be checked against a licensed copy)",
    ),
    step(
      "V_Rk_s",
      "n_x * n_y * psi_grout * k_7 * k_6 * A_b * f_u",
      "force",
      "7.2.2.3.1",
      "characteristic bar strength in shear",
    ),
  ],
  capacity: "V_Rk_s",
  reduction: steelShearFactor,
  notes: [
    "The factor for grout is for at least two bars in the direction of the load, more than 10 diameters apart, in uncracked concrete, without tension on the plate, and with grout at least as strong as the concrete and at least 30 MPa. These conditions are not checked.",
  ],
};

/**
 * Steel failure in shear with lever arm, 7.2.2.3.2: V_Rk,s,M = n alpha_M M_Rk,s / l_a with
 * M_Rk,s = 1.2 W_el f_uk (1 - N_Ed/N_Rd,s) and W_el = pi d^3 / 32; no tension beside the shear by
 * default. l_a and alpha_M are the row's (lever_arm_mm, lever_restraint), else those of the
 * options. FRP bars: the clause does not hold, see dowel-1986.
 */
export const steelInBending: ProvisionDefinition = {
  id: "en1992-4-2018/7.2.2.3.2",
  title: "Steel failure in shear with lever arm",
  action: "shear",
  modes: ["bar_shear"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [
    required("7.2.2.3.2", "steel == 1", "the clause covers steel only"),
    required("7.2.2.3.2", "l_a_used > 0", "no lever arm is stated"),
  ],
  steps: [
    leverArm,
    step(
      "alpha_M_used",
      "if(restraint > 0, restraint, alpha_M)",
      "number",
      "7.2.2.3.2",
      "restraint: the row's, else option alpha_M",
    ),
    step(
      "W_el",
      "pi * d_a^3 / 32",
      "section_modulus",
      "7.2.2.3.2",
      "elastic section modulus of the bar",
    ),
    step(
      "M_Rk_s_0",
      "1.2 * W_el * f_u",
      "moment",
      "7.2.2.3.2",
      "characteristic bending strength of the bar without tension",
    ),
    step(
      "M_Rk_s",
      "M_Rk_s_0 * max(0, 1 - tension_share)",
      "moment",
      "7.2.2.3.2",
      "characteristic bending strength reduced for tension",
    ),
    step(
      "V_Rk_s_M",
      "n_x * n_y * alpha_M_used * M_Rk_s / l_a_used",
      "force",
      "7.2.2.3.2",
      "characteristic shear with lever arm",
    ),
  ],
  capacity: "V_Rk_s_M",
  reduction: steelShearFactor,
};

/**
 * FRP bar in shear: V_f = n A_b f_v, area times transverse shear strength (ASTM D7617 test). No
 * code equation.
 */
export const frpBarInShear: ProvisionDefinition = {
  id: "en1992-4-2018/frp-transverse-shear",
  title: "FRP bar in shear: area times transverse shear strength (no code equation)",
  action: "shear",
  modes: ["bar_shear"],
  confidence: "H",
  levels: ["nominal"],
  limits: [
    required("no clause", "frp == 1", "for FRP bars only; steel bars have a separate clause"),
    reported(
      "no clause",
      "l_a == 0 && lever_arm == 0",
      "the shear acts with a lever arm and bends the bar, which this equation does not consider",
    ),
  ],
  steps: [
    step(
      "V_f",
      "n_x * n_y * A_b * f_v",
      "force",
      "no clause",
      "area times transverse shear strength",
    ),
  ],
  capacity: "V_f",
  notes: ["Not a provision of the code. It is given because the steel clause does not cover FRP."],
};
