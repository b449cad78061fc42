import type { CodeDefinition } from "../../model/definition";
import type { DevelopmentLengthRule } from "../../model/development-length";
import { SI } from "../../model/unit-system";
import { developedForce, lengthForStress } from "./development";
import { DEVELOPED_BARS } from "../../model/tested-by";

/** CSA S6, Canadian highway bridge design code: development of FRP bars. */
export const csaS6: CodeDefinition = {
  id: "csa-s6-14",
  title: "CSA S6, Canadian highway bridge design code, development of FRP bars",
  edition: "2014 (2019 the same, as far as remembered)",
  system: SI,
  covers: "16.8.4: development length of FRP bars, and the force developed at an embedment.",
  testedBy: DEVELOPED_BARS,
  options: {
    k_4: {
      quantity: "number",
      value: 1,
      meaning:
        "ratio of the bar's bond strength to that of a steel bar, as the literature prints it; 0.8 without tests in the code, 1 counts no difference",
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
    "The bond ratio k_4 stands in the numerator of the length as the literature prints it, so that a bar of weaker bond would get a shorter length. The clause must be checked before use; k_4 is 1 here unless stated.",
    "k_1 is taken as 1.3 above 300 mm of fresh concrete (from memory).",
  ],
  provisions: [developedForce],
  gaps: [
    "Nothing on anchors: no breakout, no edge and no shear provision.",
    "Resistance factors: no design level.",
  ],
};

export const csaS6Length: DevelopmentLengthRule = { code: csaS6, definition: lengthForStress };
