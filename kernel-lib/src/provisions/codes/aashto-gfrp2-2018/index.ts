import type { CodeDefinition } from "../../model/definition";
import type { DevelopmentLengthRule } from "../../model/development-length";
import { INCH_KIP } from "../../model/unit-system";
import { sustainedRupture } from "../../model/sustained-frp";
import { developedForce, frpRupture, lengthForStress } from "./development";
import { whether } from "../../model/yes-or-no";
import { DEVELOPED_BARS } from "../../model/tested-by";

/**
 * AASHTO guide specifications for bridges with GFRP-reinforced concrete, second edition:
 * development of bars.
 */
export const aashtoGfrp: CodeDefinition = {
  id: "aashto-gfrp2-2018",
  title: "AASHTO LRFD bridge design guide specifications for GFRP-reinforced concrete",
  edition: "second edition, 2018",
  system: INCH_KIP,
  covers: "2.9.7.4 both ways, lap splice, rupture, sustained and cyclic tension; glass FRP.",
  testedBy: DEVELOPED_BARS,
  options: {
    C_E: {
      quantity: "number",
      value: 1,
      meaning:
        "environmental factor on the bar's strength: 0.70 exposed, 0.80 not exposed (to be checked); 1 compares with tests",
      clause: "2.4.2.1",
    },
    lap_splice: {
      quantity: "number",
      value: 0,
      meaning: whether(
        "the length of a class B lap splice is asked for, 1.3 times the development length",
      ),
      clause: "2.9.7.6",
    },
    sustained: {
      quantity: "number",
      value: 0,
      meaning: "kind of tension: 1 for sustained, 2 for cyclic, 0 for neither (to be checked)",
      clause: "creep and fatigue",
    },
  },
  readings: [
    "ksi form of the same equation as ACI 440.1R: 31.6 for the root of 1000, so 0.07 % apart from it.",
    "Below the least length of 20 diameters nothing is known of this edition (searched, not found): the equation is printed there and the row lies outside the stated range, so that no test below it is judged. ACI 440.1R, of the same root, reduces the stress linearly there.",
  ],
  provisions: [
    developedForce,
    frpRupture,
    sustainedRupture(
      "aashto-gfrp2-2018",
      "creep and fatigue",
      "M",
      "if(sustained == 2, 0.25, 0.3)",
      "gfrp == 1",
      "glass",
    ),
  ],
  gaps: [
    "Nothing on anchors: no breakout, no edge and no shear provision of a bar in concrete.",
    "Resistance factors: no design level.",
    "Clause numbers are from memory.",
  ],
};

export const aashtoGfrpLength: DevelopmentLengthRule = {
  code: aashtoGfrp,
  definition: lengthForStress,
};
