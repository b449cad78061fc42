import type { CodeDefinition } from "../../model/definition";
import type { DevelopmentLengthRule } from "../../model/development-length";
import { INCH_POUND } from "../../model/unit-system";
import { sustainedRupture } from "../../model/sustained-frp";
import { developedForce, frpRupture, lengthForStress } from "./development";
import { whether } from "../../model/yes-or-no";
import { DEVELOPED_BARS } from "../../model/tested-by";

/**
 * ACI CODE-440.11-22, building code for concrete reinforced with glass FRP bars: development of
 * bars.
 */
export const aci440Code: CodeDefinition = {
  id: "aci440.11-22",
  title: "ACI CODE-440.11, structural concrete reinforced with glass FRP bars",
  edition: "2022, inch-pound form",
  system: INCH_POUND,
  covers: "25.4.2 both ways, 20.2.2 rupture, lap splice, sustained tension; glass FRP.",
  testedBy: DEVELOPED_BARS,
  options: {
    C_E: {
      quantity: "number",
      value: 1,
      meaning:
        "environmental factor on the bar's strength: 0.85 in the code; 1 compares with tests",
      clause: "20.2.2",
    },
    lap_splice: {
      quantity: "number",
      value: 0,
      meaning: whether(
        "the length of a class B lap splice is asked for, 1.3 times the development length",
      ),
      clause: "25.5.2",
    },
    sustained: {
      quantity: "number",
      value: 0,
      meaning: whether("the tension is sustained"),
      clause: "24.6 (to be checked)",
    },
  },
  readings: [
    "psi_t multiplies the stress only, as alpha does in ACI 440.1R; outside the bracket it would change the length. To be checked against a licensed copy.",
    "Below the least length of 20 diameters and 12 in. nothing is known of this edition (searched, not found): the equation is printed there and the row lies outside the stated range, so that no test below it is judged. ACI 440.1R, of the same root, reduces the stress linearly there.",
  ],
  provisions: [
    developedForce,
    frpRupture,
    sustainedRupture("aci440.11-22", "24.6", "M", "0.3", "gfrp == 1", "glass"),
  ],
  gaps: [
    "Nothing on anchors: no breakout, no edge and no shear provision.",
    "A cap on the root of f'c (believed 100 psi) could not be verified and is left out.",
  ],
};

export const aci440CodeLength: DevelopmentLengthRule = {
  code: aci440Code,
  definition: lengthForStress,
};
