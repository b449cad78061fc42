import { step, type CodeDefinition } from "../../model/definition";
import { SI } from "../../model/unit-system";
import { coneWithBond, MEAN_BOND_STRESS } from "./cone-with-bond";
import { BONDED_ANCHORS } from "../../model/tested-by";

/**
 * Cone of the concrete capacity form with bond below it: N(h_c) = k sqrt(f'c) h_c^1.5 + tau pi d
 * (h_ef - h_c), stationary at h_c = [tau pi d / (1.5 k sqrt(f'c))]^2, where it is least (N, mm,
 * MPa). A derived form, not a published one; k = 14.6 by default.
 */
const capacityCone = coneWithBond({
  id: "combined-cone-bond/tension",
  title: "Mean load, concrete capacity cone with uniform bond below it",
  depth: [
    step(
      "h_c_root",
      "tau_m * pi * d_a / (1.5 * k_cone * sqrt(f_c))",
      "number",
      "least load",
      "square root of the cone depth of minimum load",
    ),
    step("h_c", "h_c_root^2", "length", "least load", "cone depth of minimum load"),
  ],
  cone: "k_cone * sqrt(f_c) * h_c_used^1.5",
  reach: 1.5,
});

/** Cone of the concrete capacity form and bond together, mean loads. */
export const combinedConeBond: CodeDefinition = {
  id: "combined-cone-bond",
  title: "Concrete capacity cone with uniform bond, mean loads",
  edition: "N, mm, MPa; needs the mean bond stress in column bond_strength_mean_MPa or as option",
  system: SI,
  covers: "Mean tension load of single bonded bars remote from edges.",
  testedBy: BONDED_ANCHORS,
  options: {
    mean_bond_stress: MEAN_BOND_STRESS,
    k_cone: {
      quantity: "number",
      value: 14.6,
      meaning: "mean cone coefficient with cylinder strength, uncracked, post-installed",
      clause: "cone",
    },
  },
  readings: [
    "A derived model, not a published one: the cone of the concrete capacity method replaces the shallow cone of 1993.",
  ],
  provisions: [capacityCone],
  gaps: [
    "Groups and edges.",
    "Cracked and lightweight concrete: the cone is that of uncracked normal-weight concrete in every row.",
  ],
};
