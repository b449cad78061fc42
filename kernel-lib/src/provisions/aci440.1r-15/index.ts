import type { CodeDefinition } from "../model/definition";
import type { DevelopmentLengthRule } from "../model/development-length";
import { INCH_POUND } from "../model/unit-system";
import { developableStress, frpRupture } from "./developable-stress";
import { lengthForStress } from "./development-length";

/** ACI 440.1R-15, guide for concrete reinforced with FRP bars: development of bars, the part that bears on anchorage. */
export const aci440Guide: CodeDefinition = {
  id: "aci440.1r-15",
  title: "ACI 440.1R-15, guide for concrete reinforced with FRP bars",
  edition: "2015, inch-pound form",
  system: INCH_POUND,
  options: {
    C_E: { quantity: "number", value: 1, meaning: "environmental factor on the bar's strength; 1 compares with tests", clause: "6.2" },
  },
  provisions: [developableStress, frpRupture],
  gaps: ["Nothing on anchors: the guide has no breakout, no edge and no shear provision."],
};

export { bendStrength } from "./bend";
export const aci440GuideLength: DevelopmentLengthRule = { code: aci440Guide, definition: lengthForStress };
