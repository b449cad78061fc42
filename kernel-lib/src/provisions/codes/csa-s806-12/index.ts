import type { CodeDefinition } from "../../model/definition";
import type { DevelopmentLengthRule } from "../../model/development-length";
import { SI } from "../../model/unit-system";
import { developedForce, frpRupture, lengthForStress } from "./development";
import { whether } from "../../model/yes-or-no";
import { DEVELOPED_BARS } from "../../model/tested-by";

/** CSA S806-12, building structures with FRP: development of bars. */
export const csaS806: CodeDefinition = {
  id: "csa-s806-12",
  title: "CSA S806, design and construction of building structures with fibre-reinforced polymers",
  edition: "2012",
  system: SI,
  covers: "9.3.2 (development length, and force developed at an embedment) and rupture of the bar.",
  testedBy: DEVELOPED_BARS,
  options: {
    semi_low_density: {
      quantity: "number",
      value: 0,
      meaning: whether("lightweight concrete is semi-low-density", "structural low density"),
      clause: "9.3.2",
    },
    k_4_basalt: {
      quantity: "number",
      value: 0,
      meaning:
        "fiber factor for basalt, for which none is stated; 0 gives no value for basalt bars",
      clause: "9.3.2",
    },
  },
  readings: [
    "k_5 is 1.0 for a helically wrapped surface with sand and 1.05 without sand (to be checked against a licensed copy). None is stated for a plain, threaded or unknown surface.",
    "k_4 of basalt is unknown: the clause does not apply unless option k_4_basalt is set.",
    "The minimum length of 300 mm is reported as a limit; a force developed is still given for shorter embedments.",
  ],
  jumps: [
    "k_3 increases from 0.8 to 1 above an area of 300 mm², which lowers the force developed by one fifth.",
  ],
  provisions: [developedForce, frpRupture],
  gaps: [
    "Anchoring to concrete: the edition has no provisions for concrete breakout, edge failure or shear of a bar.",
    "Resistance factors are not coded, so no design level is given.",
  ],
};

export const csaS806Length: DevelopmentLengthRule = { code: csaS806, definition: lengthForStress };
