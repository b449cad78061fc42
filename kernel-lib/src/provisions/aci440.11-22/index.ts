import type { CodeDefinition } from "../model/definition";
import type { DevelopmentLengthRule } from "../model/development-length";
import { INCH_POUND } from "../model/unit-system";
import { developedForce, frpRupture, lengthForStress } from "./development";

/** ACI CODE-440.11-22, building code for concrete reinforced with glass FRP bars: development of bars. */
export const aci440Code: CodeDefinition = {
  id: "aci440.11-22",
  title: "ACI CODE-440.11, structural concrete reinforced with glass FRP bars",
  edition: "2022, inch-pound form",
  system: INCH_POUND,
  options: {
    C_E: { quantity: "number", value: 1, meaning: "environmental factor on the bar's strength: 0.85 in the code; 1 compares with tests", clause: "20.2.2" },
  },
  provisions: [developedForce, frpRupture],
  gaps: [
    "Nothing on anchors: no breakout, no edge and no shear provision.",
    "A cap on the root of f'c and the sustained-stress limit (believed 0.30 f_fu) could not be verified and are left out.",
  ],
};

export const aci440CodeLength: DevelopmentLengthRule = { code: aci440Code, definition: lengthForStress };
