import { required, step, type ProvisionDefinition } from "../../model/definition";
import { bondSteps } from "./bond-tension";
import type { Form } from "./form";
import { concreteTensionReduction } from "./reduction-factors";
import { BONDED_ANCHORS } from "../../model/tested-by";

/**
 * Limit on sustained tension of adhesive bars, 17.5.2.2: N_ua,s <= 0.55 phi N_ba for the bar that
 * carries most. The capacity is for a group whose bars share the tension equally. Stated only for
 * sustained tension (option sustained), since a short-term test says nothing of it.
 */
export const sustainedTension = (form: Form): ProvisionDefinition => ({
  id: "aci318-19/17.5.2.2",
  title: "Limit on sustained tension of adhesive bars",
  action: "tension",
  modes: ["bond"],
  testedBy: BONDED_ANCHORS,
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [
    required("17.5.2.2", "post_installed == 1", "for bars bonded into drilled holes"),
    required("17.5.2.2", "sustained == 1", "for sustained tension only (option sustained)"),
  ],
  steps: [
    ...bondSteps(form).filter(({ symbol }) =>
      ["tau_cr_table", "tau_uncr_table", "tau_used", "lambda_a_bond", "N_ba"].includes(symbol),
    ),
    step(
      "N_sus",
      "0.55 * n_x * n_y * N_ba",
      "force",
      "17.5.2.2",
      "limit on sustained tension, shared equally by the bars",
    ),
  ],
  capacity: "N_sus",
  reduction: concreteTensionReduction,
});
