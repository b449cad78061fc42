import type { CodeDefinition } from "../model/definition";
import type { DevelopmentLengthRule } from "../model/development-length";
import { INCH_KIP } from "../model/unit-system";
import { developedForce, frpRupture, lengthForStress } from "./development";

/** AASHTO guide specifications for bridges with GFRP-reinforced concrete, second edition: development of bars. */
export const aashtoGfrp: CodeDefinition = {
  id: "aashto-gfrp2-2018",
  title: "AASHTO LRFD bridge design guide specifications for GFRP-reinforced concrete",
  edition: "second edition, 2018",
  system: INCH_KIP,
  options: {
    C_E: { quantity: "number", value: 1, meaning: "environmental factor on the bar's strength: 0.70 exposed, 0.80 not exposed (to be checked); 1 compares with tests", clause: "2.4.2.1" },
  },
  provisions: [developedForce, frpRupture],
  gaps: [
    "Nothing on anchors: no breakout, no edge and no shear provision of a bar in concrete.",
    "Creep and fatigue limits (believed 0.30 and 0.25) are not applied to short-term tests.",
    "Clause numbers are from memory.",
  ],
};

export const aashtoGfrpLength: DevelopmentLengthRule = { code: aashtoGfrp, definition: lengthForStress };
