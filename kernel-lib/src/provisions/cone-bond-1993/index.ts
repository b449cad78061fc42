import { reported, required, step, type CodeDefinition, type ProvisionDefinition } from "../model/definition";
import { SI } from "../model/unit-system";

/**
 * Mean load of a bonded bar failing by a shallow cone with bond below it (Cook 1993): N(h_c) = 0.92 h_c^2 sqrt(f'c) +
 * tau pi d (h_ef - h_c), least at h_c = tau pi d / (1.84 sqrt(f'c)); the cone alone when h_ef is less (N, mm, MPa).
 * To be checked against a licensed copy.
 */
const coneWithBond: ProvisionDefinition = {
  id: "cone-bond-1993/tension",
  title: "Mean load, shallow cone with uniform bond below it",
  action: "tension",
  modes: ["combined_cone_bond", "bond"],
  confidence: "M",
  levels: ["expected"],
  limits: [
    required("single bar", "n_x * n_y == 1", "for single bars only"),
    reported("single bar", "min(c_1, c_2, c_3, c_4) >= h_c_used", "an edge cuts the cone; the model is for bars far from edges"),
  ],
  steps: [
    step("tau_m", "if(mean_bond_stress > 0, mean_bond_stress, tau_mean)", "stress", "bond", "mean bond stress"),
    step("h_c", "tau_m * pi * d_a / (1.84 * sqrt(f_c))", "length", "least load", "depth of the cone that gives the least load"),
    step("h_c_used", "min(h_c, h_ef)", "length", "least load", "depth of the cone used; the embedment when that is less"),
    step("N_cone", "0.92 * h_c_used^2 * sqrt(f_c)", "force", "cone", "cone load"),
    step("N_bond", "tau_m * pi * d_a * (h_ef - h_c_used)", "force", "bond", "bond load below the cone"),
    step("N_u", "N_cone + N_bond", "force", "least load", "mean load"),
  ],
  capacity: "N_u",
};

/** Cone and bond together, mean loads, 1993. */
export const coneBond1993: CodeDefinition = {
  id: "cone-bond-1993",
  title: "Shallow cone with uniform bond, mean loads (Cook 1993)",
  edition: "N, mm, MPa; needs the mean bond stress in column bond_strength_mean_MPa or as option",
  system: SI,
  options: { mean_bond_stress: { quantity: "stress", value: 0, meaning: "mean bond stress of every row; 0 takes each row's own from column bond_strength_mean_MPa", clause: "bond" } },
  provisions: [coneWithBond],
  gaps: ["The elastic bond version: its cone depth has no closed form.", "Groups and edges."],
};
