import type { CodeDefinition } from "../../model/definition";
import type { DevelopmentLengthRule } from "../../model/development-length";
import { SI } from "../../model/unit-system";
import { developedForce, frpRupture, lengthForStress } from "./development";
import { DEVELOPED_BARS } from "../../model/tested-by";

/**
 * JSCE recommendation of 1997 for concrete structures with continuous-fibre reinforcement:
 * development of bars.
 */
export const jsce: CodeDefinition = {
  id: "jsce-1997",
  title:
    "JSCE recommendation for design and construction of concrete structures using continuous fibre reinforcing materials",
  edition: "1997",
  system: SI,
  covers: "Development of bars both ways and rupture.",
  testedBy: DEVELOPED_BARS,
  options: {
    alpha_2: {
      quantity: "number",
      value: 1,
      meaning: "ratio of the bar's bond strength to that of a ribbed steel bar, by test, at most 1",
      clause: "development length",
    },
    gamma_c: {
      quantity: "number",
      value: 1.3,
      meaning: "partial factor of concrete; enters the development length, not the nominal force",
      clause: "development length",
    },
    transverse_index: {
      quantity: "length",
      value: 0,
      meaning: "transverse reinforcement 15 (A_t / s) (E_t / E_0)",
      clause: "development length",
    },
  },
  readings: [
    "The nominal force leaves out the partial factor; the development length holds it (option gamma_c). 3.2 MPa caps the bond strength in both.",
    "c in k_c is the lesser of clear cover and half the clear spacing (to be checked); a bond ratio alpha_2 above 1 counts as 1.",
  ],
  jumps: ["alpha_1 steps from 1 to 0.6 as k_c passes 1, 1.5, 2 and 2.5."],
  provisions: [developedForce, frpRupture],
  gaps: [
    "Nothing on anchors: no breakout, no edge and no shear provision of a bar in concrete.",
    "Top bars and the least length could not be verified.",
    "Material and member factors of the bar: no design level.",
  ],
};

export const jsceLength: DevelopmentLengthRule = { code: jsce, definition: lengthForStress };
