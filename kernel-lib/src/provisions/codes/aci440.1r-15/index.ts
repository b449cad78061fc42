import type { CodeDefinition } from "../../model/definition";
import type { DevelopmentLengthRule } from "../../model/development-length";
import { INCH_POUND } from "../../model/unit-system";
import { sustainedRupture } from "../../model/sustained-frp";
import { developableStress, frpRupture } from "./developable-stress";
import { lengthForStress } from "./development-length";
import { whether } from "../../model/yes-or-no";
import { DEVELOPED_BARS } from "../../model/tested-by";

/**
 * ACI 440.1R-15, guide for concrete reinforced with FRP bars: development of bars, the part that
 * bears on anchorage.
 */
export const aci440Guide: CodeDefinition = {
  id: "aci440.1r-15",
  title: "ACI 440.1R-15, guide for concrete reinforced with FRP bars",
  edition: "2015, inch-pound form",
  system: INCH_POUND,
  covers:
    "Stress developed at an embedment and development length (10.1, 10.3), lap splice, bar strength with environmental factor (6.2), bends, creep rupture.",
  testedBy: DEVELOPED_BARS,
  options: {
    C_E: {
      quantity: "number",
      value: 1,
      meaning:
        "environmental factor on the bar's strength, see environmentalFactor: glass 0.8 interior, 0.7 exterior; 1 for comparison with tests",
      clause: "6.2",
    },
    lap_splice: {
      quantity: "number",
      value: 0,
      meaning: whether(
        "the length required is that of a Class B lap splice, 1.3 times the development length",
      ),
      clause: "10.4",
    },
    extrapolate_below_20_d: {
      quantity: "number",
      value: 0,
      clause: "10.1",
      meaning: whether(
        "the equation for the stress developed is extrapolated below 20 diameters; otherwise the stress decreases linearly to zero",
      ),
    },
    sustained: {
      quantity: "number",
      value: 0,
      meaning: whether("the tension is sustained"),
      clause: "creep rupture",
    },
  },
  readings: [
    "C is the smaller of the cover to the center of the bar and half the center-to-center spacing. Where the cover is blank, the clause does not apply.",
    "Below 20 diameters the stress at 20 diameters, limited by the bar strength, is reduced linearly to zero: f_fe(20 d) l/(20 d) (from an abstract on the institute's portal, id 51740943; the clause is to be checked). Option extrapolate_below_20_d uses the equation instead and marks the row.",
    "No strength reduction factor is applied to development. The factor of 0.55 used where bond governs comes from a textbook, not from the guide.",
  ],
  provisions: [
    developableStress,
    frpRupture,
    sustainedRupture(
      "aci440.1r-15",
      "creep rupture",
      "H",
      "if(gfrp == 1, 0.2, if(afrp == 1, 0.3, 0.55))",
      "gfrp + afrp + cfrp == 1",
      "glass, aramid and carbon",
    ),
  ],
  called: [
    {
      id: "bend",
      clause: "bends",
      title: "Strength of a bend in the bar",
      call: "bendStrength(radius over diameter, strength)",
      confidence: "H",
    },
  ],
  gaps: [
    "The guide's equations in N, mm, MPa, which round the square root of 1 psi in MPa to 0.083 (the length changes by at most 0.1 %).",
    "Anchoring to concrete: the guide has no provisions for concrete breakout, edge failure or shear of a bar.",
    "Basalt: neither an environmental factor nor a limit on sustained stress is stated.",
  ],
};

export { bendStrength } from "./bend";
export const aci440GuideLength: DevelopmentLengthRule = {
  code: aci440Guide,
  definition: lengthForStress,
};
