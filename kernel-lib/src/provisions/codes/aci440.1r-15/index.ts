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
        "environmental factor on the bar's strength, see environmentalFactor: glass 0.8 interior, 0.7 exterior; 1 compares with tests",
      clause: "6.2",
    },
    lap_splice: {
      quantity: "number",
      value: 0,
      meaning: whether(
        "the length of a class B lap splice is asked for, 1.3 times the development length",
      ),
      clause: "10.4",
    },
    extrapolate_below_20_d: {
      quantity: "number",
      value: 0,
      clause: "10.1",
      meaning: whether(
        "the equation of the stress developed is extrapolated below 20 diameters; else the stress falls linearly to zero from there",
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
    "C is the lesser of the cover to the bar's centre and half the centre spacing; a blank cover makes the clause not applicable.",
    "Below 20 diameters the stress, capped by the bar's strength, falls linearly to zero: f_fe(20 d) l/(20 d) (from an abstract of the institute's portal, id 51740943; the clause to be checked). Option extrapolate_below_20_d takes the equation instead and flags the row.",
    "No reduction for development: a strength reduction of 0.55 where bond governs is a book's practice, not the guide's.",
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
    "The guide's form in N, mm, MPa, which writes 0.083 for the root of 1 psi in MPa (0.0830; the length moves by up to 0.1 %).",
    "Nothing on anchors: the guide has no breakout, no edge and no shear provision.",
    "Basalt: no environmental factor and no share for sustained tension is stated.",
  ],
};

export { bendStrength } from "./bend";
export const aci440GuideLength: DevelopmentLengthRule = {
  code: aci440Guide,
  definition: lengthForStress,
};
