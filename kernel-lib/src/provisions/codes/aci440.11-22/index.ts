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
  covers:
    "25.4.2 (development length, and force developed at an embedment), bar rupture (20.2.2), lap splice and sustained tension, for glass FRP.",
  testedBy: DEVELOPED_BARS,
  options: {
    C_E: {
      quantity: "number",
      value: 1,
      meaning:
        "environmental factor on the bar's strength: 0.85 in the code; 1 for comparison with tests",
      clause: "20.2.2",
    },
    lap_splice: {
      quantity: "number",
      value: 0,
      meaning: whether(
        "the length required is that of a Class B lap splice, 1.3 times the development length",
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
    "psi_t multiplies only the stress, as alpha does in ACI 440.1R. Outside the bracket it would give another length. To be checked against a licensed copy.",
    "For embedments below the minimum of 20 diameters and 12 in., no rule of this edition was found. The equation is evaluated there, but the row is marked as outside the stated range and no test is judged by it. ACI 440.1R, which has the same origin, reduces the stress linearly there.",
  ],
  provisions: [
    developedForce,
    frpRupture,
    sustainedRupture("aci440.11-22", "24.6", "M", "0.3", "gfrp == 1", "glass"),
  ],
  gaps: [
    "Anchoring to concrete: the edition has no provisions for concrete breakout, edge failure or shear of a bar.",
    "A limit on the square root of f'c (believed to be 100 psi) could not be verified and is omitted.",
  ],
};

export const aci440CodeLength: DevelopmentLengthRule = {
  code: aci440Code,
  definition: lengthForStress,
};
