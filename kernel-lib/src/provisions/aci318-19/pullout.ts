import { required, step, type ProvisionDefinition } from "../model/definition";
import { headedPulloutReduction } from "./reduction-factors";

/**
 * Pullout of a headed cast-in bar in tension, 17.6.3: N_pn = n psi_c,P 8 A_brg f'c, psi_c,P = 1.4 uncracked.
 *
 * A_brg is the net bearing area of the head, given as option `A_brg`; without it (0) the bar is straight and the
 * clause does not apply. f'c is limited as in 17.3.1; the form holds in any consistent units.
 */
export const headedPullout = (strengthLimit: number): ProvisionDefinition => ({
  id: "aci318-19/17.6.3.2.2a",
  title: "Pullout strength of headed cast-in bars in tension",
  action: "tension",
  modes: ["bond"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [
    required("17.6.3", "post_installed == 0", "for cast-in heads; a bar in a drilled hole follows 17.6.5"),
    required("17.6.3.2.2", "A_brg > 0", "needs bearing area: a straight bar has no head; option A_brg states the net bearing area of one"),
  ],
  steps: [
    step("f_c_used", `min(f_c, ${strengthLimit})`, "stress", "17.3.1", "concrete strength used, limited"),
    step("N_p", "8 * A_brg * f_c_used", "force", "17.6.3.2.2a", "basic pullout strength of one head in cracked concrete"),
    step("psi_c_P", "if(cracked == 1, 1, 1.4)", "number", "17.6.3.3.1", "factor for uncracked concrete"),
    step("N_pn", "n_x * n_y * psi_c_P * N_p", "force", "17.6.3.1", "nominal pullout strength"),
  ],
  capacity: "N_pn",
  reduction: headedPulloutReduction,
});
