import { sideFaceFactors, sideFacePlan } from "../aci318-19/side-face-blowout";
import { required, step, type ProvisionDefinition } from "../../model/definition";
import { CAST_IN_HEADS } from "../../model/tested-by";

/**
 * Mean side-face blowout load of deep heads near an edge (Furche, Eligehausen 1991): N_u = 16.8 c_1
 * sqrt(A_brg) sqrt(f_cc,200), uncracked (N, mm, MPa), where h_ef > 2.5 c_1; times the corner and
 * row factors that the codes took over, see ACI 318-19, 17.6.4.
 *
 * The coefficient is from memory; a synopsis of the paper confirms what enters it
 * (https://ar.scribd.com/document/319999085/Lateral-Blow-Out-Failure). Needs option `A_brg`; one
 * row of bars only.
 */
export const meanSideFace: ProvisionDefinition = {
  id: "ccd-1995/side-face",
  title: "Mean side-face blowout load of deep cast-in heads in tension",
  action: "tension",
  modes: ["concrete_breakout"],
  testedBy: CAST_IN_HEADS,
  confidence: "M",
  levels: ["expected"],
  limits: [
    required(
      "side face",
      "post_installed == 0 && A_brg > 0",
      "for cast-in heads; state the net bearing area of the head in option A_brg",
    ),
    required(
      "side face",
      "h_ef > 2.5 * c_a1",
      "for heads embedded deeper than 2.5 times their edge distance",
    ),
    required("side face", "bars_across == 1", "for bars in one row along the nearest edge"),
  ],
  steps: [
    step("f_used", "f_c / 0.85", "stress", "basic", "200 mm cube strength, cylinder / 0.85"),
    ...sideFacePlan("side face"),
    step(
      "psi_cr",
      "if(cracked == 1, crack_factor, 1)",
      "number",
      "cracking",
      "factor for cracked concrete",
    ),
    step(
      "N_u_0",
      "16.8 * c_a1 * sqrt(A_brg) * sqrt(f_used)",
      "force",
      "side face",
      "mean load of one head remote from corners, uncracked",
    ),
    ...sideFaceFactors("side face"),
    step(
      "N_u",
      "psi_row * psi_corner * psi_cr * N_u_0",
      "force",
      "side face",
      "mean side-face blowout load",
    ),
  ],
  capacity: "N_u",
};
