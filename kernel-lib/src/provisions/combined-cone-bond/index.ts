import { reported, required, step, type CodeDefinition, type ProvisionDefinition } from "../model/definition";
import { SI } from "../model/unit-system";

/**
 * Mean load of a bonded bar failing by a cone of the concrete capacity form with bond below it: N(h_c) =
 * k sqrt(f'c) h_c^1.5 + tau pi d (h_ef - h_c), stationary at h_c = [tau pi d / (1.5 k sqrt(f'c))]^2, where it is least;
 * the cone alone when h_ef is less (N, mm, MPa). A derived form, not a published one; k = 14.6 by default.
 */
const coneWithBond: ProvisionDefinition = {
  id: "combined-cone-bond/tension",
  title: "Mean load, cone of the concrete capacity form with uniform bond below it",
  action: "tension",
  modes: ["combined_cone_bond", "bond"],
  confidence: "M",
  levels: ["expected"],
  limits: [
    required("single bar", "n_x * n_y == 1", "for single bars only"),
    reported("single bar", "min(c_1, c_2, c_3, c_4) >= 1.5 * h_c_used", "an edge cuts the cone; the model is for bars far from edges"),
  ],
  steps: [
    step("tau_m", "if(mean_bond_stress > 0, mean_bond_stress, tau_mean)", "stress", "bond", "mean bond stress"),
    step("h_c_root", "tau_m * pi * d_a / (1.5 * k_cone * sqrt(f_c))", "number", "least load", "root of the depth of the cone that gives the least load"),
    step("h_c", "h_c_root^2", "length", "least load", "depth of the cone that gives the least load"),
    step("h_c_used", "min(h_c, h_ef)", "length", "least load", "depth of the cone used; the embedment when that is less"),
    step("N_cone", "k_cone * sqrt(f_c) * h_c_used^1.5", "force", "cone", "cone load"),
    step("N_bond", "tau_m * pi * d_a * (h_ef - h_c_used)", "force", "bond", "bond load below the cone"),
    step("N_u", "N_cone + N_bond", "force", "least load", "mean load"),
  ],
  capacity: "N_u",
};

/** Cone of the concrete capacity form and bond together, mean loads. */
export const combinedConeBond: CodeDefinition = {
  id: "combined-cone-bond",
  title: "Cone of the concrete capacity form with uniform bond, mean loads",
  edition: "N, mm, MPa; needs the mean bond stress in column bond_strength_mean_MPa or as option",
  system: SI,
  options: {
    mean_bond_stress: { quantity: "stress", value: 0, meaning: "mean bond stress of every row; 0 takes each row's own from column bond_strength_mean_MPa", clause: "bond" },
    k_cone: { quantity: "number", value: 14.6, meaning: "mean cone coefficient with cylinder strength, uncracked, post-installed", clause: "cone" },
  },
  provisions: [coneWithBond],
  gaps: ["Groups and edges."],
};
