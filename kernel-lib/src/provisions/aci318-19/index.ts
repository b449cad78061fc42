import type { CodeDefinition } from "../model/definition";
import type { DevelopmentLengthRule } from "../model/development-length";
import { bondInTension } from "./bond-tension";
import { breakoutInShear, breakoutParallelToEdge } from "./breakout-shear";
import { breakoutInTension } from "./breakout-tension";
import { DETAIL_OPTIONS } from "./detail-checks";
import { DEVELOPMENT_OPTIONS, developedForce, lengthForStress, simplifiedLength } from "./development";
import { IN_LB, METRIC, type Form } from "./form";
import { OPTIONS } from "./options";
import { pryoutInShear } from "./pryout";
import { headedPullout } from "./pullout";
import { sustainedTension } from "./sustained-tension";
import { barStrengthInShear, barStrengthInTension, frpBarInShear } from "./steel-strength";

const edition = (id: string, form: Form): CodeDefinition => ({
  id,
  title: "ACI 318-19 Chapter 17, anchoring to concrete, and development of bars",
  edition: form.name === "in-lb" ? "2019, inch-pound form" : "2019, metric form (its own rounded coefficients)",
  system: form.system,
  options: { ...OPTIONS, ...DEVELOPMENT_OPTIONS, ...DETAIL_OPTIONS },
  provisions: [
    barStrengthInTension(form),
    breakoutInTension(form),
    bondInTension(form),
    sustainedTension(form),
    developedForce(form),
    headedPullout(form.strengthCastIn),
    barStrengthInShear(form),
    frpBarInShear,
    breakoutInShear(form),
    breakoutParallelToEdge(form, 2),
    breakoutParallelToEdge(form, 4),
    pryoutInShear(form),
  ],
  gaps: ["The 2025 edition is not coded: its changes could not be verified."],
});

/** ACI 318-19 Chapter 17 in inch-pound form: the code. */
export const aci318 = edition("aci318-19", IN_LB);

/** ACI 318-19 Chapter 17 in its separate metric form. */
export const aci318Metric = edition("aci318-19m", METRIC);

export const aci318Length: DevelopmentLengthRule = { code: aci318, definition: lengthForStress(IN_LB) };
export const aci318MetricLength: DevelopmentLengthRule = { code: aci318Metric, definition: lengthForStress(METRIC) };
export const aci318SimplifiedLength: DevelopmentLengthRule = { code: aci318, definition: simplifiedLength(IN_LB) };
export const aci318MetricSimplifiedLength: DevelopmentLengthRule = { code: aci318Metric, definition: simplifiedLength(METRIC) };

export { powerInteraction, trilinearInteraction, type InteractionResult } from "./interaction";
export { ACI318_DETAIL_CHECKS } from "./detail-checks";
