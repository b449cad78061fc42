import { coneWithBond, MEAN_BOND_STRESS } from "../combined-cone-bond/cone-with-bond";
import { step, type CodeDefinition } from "../../model/definition";
import { SI } from "../../model/unit-system";
import { BONDED_ANCHORS } from "../../model/tested-by";

/**
 * Shallow cone with bond below it (Cook 1993): N(h_c) = 0.92 h_c^2 sqrt(f'c) + tau pi d (h_ef -
 * h_c), least at h_c = tau pi d / (1.84 sqrt(f'c)) (N, mm, MPa). To be checked against a licensed
 * copy.
 */
const shallowCone = coneWithBond({
  id: "cone-bond-1993/tension",
  title: "Mean load, shallow cone with uniform bond below it",
  depth: [
    step(
      "h_c",
      "tau_m * pi * d_a / (1.84 * sqrt(f_c))",
      "length",
      "least load",
      "cone depth of minimum load",
    ),
  ],
  cone: "0.92 * h_c_used^2 * sqrt(f_c)",
  reach: 1,
});

/** Cone and bond together, mean loads, 1993. */
export const coneBond1993: CodeDefinition = {
  id: "cone-bond-1993",
  title: "Shallow cone with uniform bond, mean loads (Cook 1993)",
  edition: "N, mm, MPa; needs the mean bond stress in column bond_strength_mean_MPa or as option",
  system: SI,
  covers: "Mean tension load of single bonded bars remote from edges, uniform bond version.",
  testedBy: BONDED_ANCHORS,
  options: { mean_bond_stress: MEAN_BOND_STRESS },
  provisions: [shallowCone],
  gaps: [
    "The elastic bond version, whose cone depth has no closed-form solution.",
    "Groups and edges.",
    "Cracked and lightweight concrete: the cone is that of uncracked normal-weight concrete in every row.",
  ],
};
