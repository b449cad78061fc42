import {
  reported,
  required,
  step,
  type Limit,
  type ProvisionDefinition,
} from "../../model/definition";
import type { Form } from "./form";
import { steelReduction } from "./reduction-factors";

const CAP_MEANING =
  "tensile strength used; for steel at most 1.9 f_y and the fixed limit, which do not apply to FRP";

/**
 * Bar strength in tension, 17.6.1.2: N_sa = n A_b f_u.
 *
 * f_u is capped for steel only. For an FRP bar the same product is its rupture force; the edition
 * does not cover FRP, so the value is what the clause would give.
 */
export const barStrengthInTension = (form: Form): ProvisionDefinition => ({
  id: "aci318-19/17.6.1.2",
  title: "Bar strength in tension",
  action: "tension",
  modes: ["bar_rupture", "yield"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [],
  steps: [
    step(
      "f_uta",
      `if(steel == 1, min(f_u, 1.9 * f_y_cap, ${form.steelCap}), f_u)`,
      "stress",
      "17.6.1.2",
      CAP_MEANING,
    ),
    step("N_sa", "n_x * n_y * A_b * f_uta", "force", "17.6.1.2", "nominal bar strength in tension"),
  ],
  capacity: "N_sa",
  reduction: steelReduction(0.75, 0.65),
});

const bends: Limit = reported(
  "17.7.1.2",
  "l_a == 0",
  "the shear acts with a lever arm and bends the bar, which the clause does not consider",
);

/**
 * Bar strength in shear, 17.7.1.2(b): V_sa = 0.6 n A_b f_u for steel, 0.8 of it through a grout pad
 * (17.7.1.2.1: option grout_pad, or a row with grout_thickness_mm). The edition has no equation for
 * a lever arm: such a row is given and flagged.
 *
 * For FRP the clause has no value. By default the capacity is area times transverse shear strength,
 * which is no code equation; option `literal_steel_shear` shows what the steel share would give.
 */
export const barStrengthInShear = (form: Form): ProvisionDefinition => ({
  id: "aci318-19/17.7.1.2",
  title: "Bar strength in shear",
  action: "shear",
  modes: ["bar_shear"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [
    required(
      "17.7.1.2",
      "steel == 1 || literal_steel_shear == 1",
      "the clause covers steel only; for FRP, use the area times the transverse shear strength, or option literal_steel_shear",
    ),
    bends,
  ],
  steps: [
    step(
      "f_uta",
      `if(steel == 1, min(f_u, 1.9 * f_y_cap, ${form.steelCap}), f_u)`,
      "stress",
      "17.7.1.2",
      CAP_MEANING,
    ),
    step(
      "psi_grout",
      "if(grout_pad == 1 || t_grout > 0, 0.8, 1)",
      "number",
      "17.7.1.2.1",
      "factor for a grout pad",
    ),
    step(
      "V_sa",
      "psi_grout * 0.6 * n_x * n_y * A_b * f_uta",
      "force",
      "17.7.1.2",
      "nominal bar strength in shear",
    ),
  ],
  capacity: "V_sa",
  reduction: steelReduction(0.65, 0.6),
  notes: ["Bending of the bar at the concrete surface is not considered."],
});

/**
 * FRP bar in shear: V_f = n A_b f_v, area times transverse shear strength (ASTM D7617 test). No
 * code equation.
 */
export const frpBarInShear: ProvisionDefinition = {
  id: "aci318-19/frp-transverse-shear",
  title: "FRP bar in shear: area times transverse shear strength (no code equation)",
  action: "shear",
  modes: ["bar_shear"],
  confidence: "H",
  levels: ["expected", "nominal", "design"],
  limits: [
    required("no clause", "frp == 1", "for FRP bars only; steel bars have a separate clause"),
    bends,
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
  reduction: steelReduction(0.65, 0.6),
  notes: [
    "Not a provision of the edition. It is given because the steel clause does not cover FRP.",
  ],
};
