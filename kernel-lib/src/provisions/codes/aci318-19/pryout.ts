import { step, type ProvisionDefinition } from "../../model/definition";
import { bondSteps } from "./bond-tension";
import { breakoutSteps, needsHeadOrHole } from "./breakout-tension";
import type { Form } from "./form";
import { pryoutReduction } from "./reduction-factors";

/**
 * Pryout, 17.7.3: V_cpg = k_cp min(N_ag, N_cbg) for adhesive bars, k_cp N_cbg for others; k_cp is 1
 * below an embedment of 2.5 in. (65 mm) and 2 from there on.
 *
 * Bars count as a group while they act together in bond or in breakout. Where only one of the two
 * holds them together, the areas of the other are those that its bars cover, without the ground
 * between, and the nearest edge's factor holds for all bars: a little under the sum over single
 * bars, never above it.
 */
export const pryoutInShear = (form: Form): ProvisionDefinition => ({
  id: "aci318-19/17.7.3",
  title: "Concrete pryout strength in shear",
  action: "shear",
  modes: ["pryout"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [needsHeadOrHole],
  steps: [
    ...breakoutSteps(form, true),
    ...bondSteps(form, true),
    step(
      "k_cp",
      `if(h_ef < ${form.pryoutDepth}, 1, 2)`,
      "number",
      "17.7.3.1.1",
      "pryout coefficient",
    ),
    step(
      "N_cpg",
      "if(post_installed == 1, min(N_ag, N_cbg), N_cbg)",
      "force",
      "17.7.3.1",
      "tension strength used in pryout",
    ),
    step(
      "s_cr_cp",
      "if(post_installed == 1, max(s_cr_N, s_cr_Na), s_cr_N)",
      "length",
      "17.5.1.3.1",
      "critical spacing of bars",
    ),
    step("V_cpg", "k_cp * N_cpg", "force", "17.7.3.1", "nominal pryout strength"),
  ],
  capacity: "V_cpg",
  reduction: pryoutReduction,
  split: { x: "s_cr_cp", y: "s_cr_cp" },
});
