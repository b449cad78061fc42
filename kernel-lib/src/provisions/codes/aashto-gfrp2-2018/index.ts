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
  covers:
    "2.9.7.4 (development length, and force developed at an embedment), lap splice, bar rupture, sustained and cyclic tension, for glass FRP.",
  testedBy: DEVELOPED_BARS,
  options: {
    C_E: {
      quantity: "number",
      value: 1,
      meaning:
        "environmental factor on the bar's strength: 0.70 exposed, 0.80 not exposed (to be checked); 1 for comparison with tests",
      clause: "2.4.2.1",
    },
    lap_splice: {
      quantity: "number",
      value: 0,
      meaning: whether(
        "the length required is that of a Class B lap splice, 1.3 times the development length",
      ),
      clause: "2.9.7.6",
    },
    sustained: {
      quantity: "number",
      value: 0,
      meaning: "type of tension: 1 sustained, 2 cyclic, 0 neither (to be checked)",
      clause: "creep and fatigue",
    },
  },
  readings: [
    "The equation is that of ACI 440.1R in ksi: the square root of 1000 is rounded to 31.6, a difference of 0.07 %.",
    "For embedments below the minimum of 20 diameters, no rule of this edition was found. The equation is evaluated there, but the row is marked as outside the stated range and no test is judged by it. ACI 440.1R, which has the same origin, reduces the stress linearly there.",
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
    "Anchoring to concrete: the edition has no provisions for concrete breakout, edge failure or shear of a bar.",
    "Resistance factors are not coded, so no design level is given.",
    "Clause numbers are from memory.",
  ],
};

export const aashtoGfrpLength: DevelopmentLengthRule = {
  code: aashtoGfrp,
  definition: lengthForStress,
};
