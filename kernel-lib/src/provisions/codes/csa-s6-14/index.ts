import type { CodeDefinition } from "../../model/definition";
import type { DevelopmentLengthRule } from "../../model/development-length";
import { SI } from "../../model/unit-system";
import { developedForce, lengthForStress } from "./development";
import { DEVELOPED_BARS } from "../../model/tested-by";

/** CSA S6, Canadian highway bridge design code: development of FRP bars. */
export const csaS6: CodeDefinition = {
  id: "csa-s6-14",
  title: "CSA S6, Canadian highway bridge design code, development of FRP bars",
  edition: "2014 (2019 the same, from memory)",
  system: SI,
  covers: "Development length of FRP bars and force developed at an embedment (16.8.4).",
  testedBy: DEVELOPED_BARS,
  options: {
    k_4: {
      quantity: "number",
      value: 1,
      meaning:
        "ratio of the bond strength of the bar to that of a steel bar, as printed in the literature; 0.8 in the code without tests, 1 for no difference",
      clause: "16.8.4",
    },
    transverse_index: {
      quantity: "length",
      value: 0,
      meaning: "transverse reinforcement index K_tr = A_tr f_y / (10.5 s n)",
      clause: "16.8.4",
    },
  },
  readings: [
    "The bond ratio k_4 is in the numerator of the length, as printed in the literature, which would give a bar of lower bond strength a shorter length. The clause must be checked before use. k_4 is 1 unless stated.",
    "k_1 is taken as 1.3 above 300 mm of fresh concrete (from memory).",
  ],
  provisions: [developedForce],
  gaps: [
    "Anchoring to concrete: the edition has no provisions for concrete breakout, edge failure or shear of a bar.",
    "Resistance factors are not coded, so no design level is given.",
  ],
};

export const csaS6Length: DevelopmentLengthRule = { code: csaS6, definition: lengthForStress };
