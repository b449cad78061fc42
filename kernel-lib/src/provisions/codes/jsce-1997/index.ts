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
  covers: "Development length, force developed at an embedment, and bar rupture.",
  testedBy: DEVELOPED_BARS,
  options: {
    alpha_2: {
      quantity: "number",
      value: 1,
      meaning:
        "ratio of the bond strength of the bar to that of a ribbed steel bar, from tests, at most 1",
      clause: "development length",
    },
    gamma_c: {
      quantity: "number",
      value: 1.3,
      meaning:
        "partial factor of concrete; used in the development length, not in the nominal force",
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
    "The nominal force excludes the partial factor; the development length includes it (option gamma_c). The bond strength is at most 3.2 MPa in both.",
    "c in k_c is the smaller of the clear cover and half the clear spacing (to be checked). A bond ratio alpha_2 above 1 is taken as 1.",
  ],
  jumps: ["alpha_1 decreases in steps from 1 to 0.6 at k_c = 1, 1.5, 2 and 2.5."],
  provisions: [developedForce, frpRupture],
  gaps: [
    "Anchoring to concrete: the edition has no provisions for concrete breakout, edge failure or shear of a bar.",
    "Top bars and the minimum length, which could not be verified.",
    "Material and member factors of the bar are not coded, so no design level is given.",
  ],
};

export const jsceLength: DevelopmentLengthRule = { code: jsce, definition: lengthForStress };
