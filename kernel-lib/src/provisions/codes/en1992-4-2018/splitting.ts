import {
  required,
  spared,
  step,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";
import { combinedSteps, sustainedFactor } from "./combined-failure";
import { basicCone, normalWeight, projected, spallingFactor } from "./concrete-cone";
import { concreteTensionFactor } from "./partial-factors";
import { BONDED_ANCHORS } from "../../model/tested-by";

const LIMITS: readonly Limit[] = [
  required("7.2.1.7", "post_installed == 1", "for bars bonded into drilled holes"),
  required(
    "7.2.1.7",
    "c_cr_sp_ratio > 0",
    "needs the characteristic edge distance for splitting of the product: option c_cr_sp_ratio",
  ),
  spared(
    "7.2.1.7(2)",
    "!(c_least >= if(n_x * n_y > 1, 1.2, 1) * c_cr_sp && h_a >= h_min)",
    "edge distances and member thickness are large enough that splitting need not be checked",
  ),
  required(
    "7.2.1.7(2)",
    "splitting_reinforced == 0",
    "reinforcement limits the width of splitting cracks, so splitting need not be checked",
  ),
  normalWeight,
];

/** Steps of 7.2.1.7 with the bond strength that enters the minimum. */
const splittingSteps = (bond: readonly Step[], entering: string): Step[] => [
  step(
    "c_cr_sp",
    "c_cr_sp_ratio * h_ef",
    "length",
    "7.2.1.7",
    "characteristic edge distance for splitting, a product value",
  ),
  step("s_cr_sp", "2 * c_cr_sp", "length", "7.2.1.7", "characteristic spacing for splitting"),
  step("A_sp_0", "s_cr_sp^2", "area", "7.2.1.7", "projected area of one bar remote from edges"),
  step(
    "A_sp",
    `min(${projected("c_cr_sp")}, n_x * n_y * A_sp_0)`,
    "area",
    "7.2.1.7",
    "projected area of the group",
  ),
  spallingFactor,
  ...basicCone("N_Rk_c_0", "h_ef"),
  ...bond,
  step(
    "N_Rk_sp_0",
    `min(${entering}, N_Rk_c_0)`,
    "force",
    "7.2.1.7",
    "splitting strength of one bar, without a product value",
  ),
  step("c_least", "min(c_1, c_2, c_3, c_4)", "length", "7.2.1.4(4)", "minimum edge distance"),
  step(
    "psi_s_sp",
    "if(c_least >= c_cr_sp, 1, 0.7 + 0.3 * c_least / c_cr_sp)",
    "number",
    "7.2.1.4(4)",
    "edge factor",
  ),
  step(
    "psi_ec_sp",
    "1 / (1 + 2 * e_x / s_cr_sp) * (1 / (1 + 2 * e_y / s_cr_sp))",
    "number",
    "7.2.1.4(6)",
    "eccentricity factor",
  ),
  step(
    "psi_h_cap",
    "if(h_min > 0, min(2, max(1, ((h_ef + 1.5 * c_least) / h_min)^(2 / 3))), 1)",
    "number",
    "7.2.1.7",
    "largest factor for thickness",
  ),
  step(
    "psi_h_sp",
    "if(h_min > 0, min((h_a / h_min)^(2 / 3), psi_h_cap), 1)",
    "number",
    "7.2.1.7",
    "factor for thickness",
  ),
  step(
    "N_Rk_sp",
    "N_Rk_sp_0 * (A_sp / A_sp_0) * psi_s_sp * psi_re_N * psi_ec_sp * psi_h_sp",
    "force",
    "7.2.1.7",
    "characteristic splitting strength",
  ),
];

/**
 * Splitting of the concrete under tension, 7.2.1.7: N_Rk,sp = N0_Rk,sp (A_c,N/A0_c,N) psi_s,N
 * psi_re,N psi_ec,N psi_h,sp, the cone's areas and factors with c_cr,sp in place of c_cr,N, and
 * N0_Rk,sp = min(N0_Rk,p, N0_Rk,c) without a product value (N, mm, MPa). Needs the product's
 * c_cr,sp (option c_cr_sp_ratio).
 *
 * Bars farther apart than s_cr,sp = 2 c_cr,sp split the concrete each for itself: the group is
 * taken apart and the strengths are added. A part so remote from edges that it alone need not be
 * checked counts with the same equation beside one that must be.
 *
 * N0_Rk,p is that of one bar remote from edges, so that edges and neighbours enter once; see
 * `splittingWithFactors`. Which of the two the clause means is from memory, to be checked against a
 * licensed copy.
 */
export const splitting: ProvisionDefinition = {
  id: "en1992-4-2018/7.2.1.7",
  title: "Splitting of the concrete under tension",
  action: "tension",
  modes: ["splitting"],
  testedBy: BONDED_ANCHORS,
  confidence: "M",
  toCheck:
    "whether the bond strength in the minimum is that of one bar remote from edges (used here) or includes its own factors (option splitting_with_factors)",
  searched: "November 2026",
  levels: ["nominal", "design"],
  limits: [
    ...LIMITS,
    required(
      "7.2.1.7",
      "splitting_with_factors == 0",
      "applies unless option splitting_with_factors is set",
    ),
  ],
  steps: splittingSteps(
    [
      sustainedFactor,
      step(
        "N_Rk_p_0",
        "psi_sus * tau_k * pi * d_a * h_ef",
        "force",
        "7.2.1.6(2)",
        "bond strength of one bar remote from edges",
      ),
    ],
    "N_Rk_p_0",
  ),
  capacity: "N_Rk_sp",
  reduction: concreteTensionFactor,
  split: { x: "s_cr_sp", y: "s_cr_sp" },
  notes: [
    "A group wider than s_cr,sp is divided. A part that would not need the check by itself is then included with the same equation. No resistance is given where no part needs the check.",
    "Whether the bond strength in the minimum is that of one bar remote from edges or includes its own factors is to be checked against a licensed copy. Option splitting_with_factors selects the other interpretation.",
  ],
};

/**
 * Splitting by the other reading of 7.2.1.7: N0_Rk,sp = min(N_Rk,p, N0_Rk,c), where N_Rk,p already
 * holds its own edge, group and eccentricity factors; lower near edges and in groups, equal for one
 * bar remote from edges.
 */
export const splittingWithFactors: ProvisionDefinition = {
  ...splitting,
  id: "en1992-4-2018/7.2.1.7-factors",
  title: "Splitting of the concrete under tension, bond strength with its own factors",
  limits: [
    ...LIMITS,
    required(
      "7.2.1.7",
      "splitting_with_factors == 1",
      "applies only with option splitting_with_factors",
    ),
  ],
  steps: splittingSteps(combinedSteps(true, false), "N_Rk_p"),
};
