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
  covers: "9.3.2 both ways and rupture of the bar.",
  testedBy: DEVELOPED_BARS,
  options: {
    semi_low_density: {
      quantity: "number",
      value: 0,
      meaning: whether("lightweight concrete is of semi-low density", "structural low density"),
      clause: "9.3.2",
    },
    k_4_basalt: {
      quantity: "number",
      value: 0,
      meaning: "fibre factor to use for basalt, for which none is stated; 0 leaves basalt bars out",
      clause: "9.3.2",
    },
  },
  readings: [
    "A helically wrapped surface with sand takes k_5 = 1.0, without sand 1.05 (to be checked against a licensed copy); a plain, threaded or unknown surface has none.",
    "k_4 of basalt is unknown: not applicable unless option k_4_basalt states it.",
    "300 mm are reported as a limit of the force developed, not cut off.",
  ],
  jumps: ["k_3 steps from 0.8 to 1 above an area of 300 mm²: a larger bar develops a fifth less."],
  provisions: [developedForce, frpRupture],
  gaps: [
    "Nothing on anchors: no breakout, no edge and no shear provision.",
    "Resistance factors: no design level.",
  ],
};

export const csaS806Length: DevelopmentLengthRule = { code: csaS806, definition: lengthForStress };
