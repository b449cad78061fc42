import { lesserCentreDistance } from "../../model/bar-surroundings";
import type { DevelopmentLengthDefinition } from "../../model/development-length";
import { reported, required, step } from "../../model/definition";

/**
 * Development length for a stress, 10.3: l_d = d (alpha f_fr/sqrt(f'c) - 340)/(13.6 + C/d), at
 * least 20 diameters (lb, in., psi); C as in the developed stress. Option lap_splice gives 1.3 of
 * it.
 */
export const lengthForStress: DevelopmentLengthDefinition = {
  id: "aci440.1r-15/10.3",
  title: "Development length of an FRP bar",
  confidence: "H",
  limits: [
    required("10.3", "frp == 1", "for FRP bars only"),
    reported(
      "10.3",
      "post_installed == 0",
      "the equation is based on tests of cast-in bars, not of bars bonded into drilled holes",
    ),
  ],
  steps: [
    lesserCentreDistance("C", "10.1"),
    step("C_ratio", "min(C / d_a, 3.5)", "number", "10.1", "C over diameter, at most 3.5"),
    step("alpha", "if(top_cast == 1, 1.5, 1)", "number", "10.1", "bar location factor"),
    step(
      "l_d_raw",
      "d_a * (alpha * f_required / sqrt(f_c) - 340) / (13.6 + C_ratio)",
      "length",
      "10.3",
      "length before the minimum applies",
    ),
    step(
      "l_d",
      "if(lap_splice == 1, 1.3, 1) * max(l_d_raw, 20 * d_a)",
      "length",
      "10.3",
      "development length, or lap splice",
    ),
  ],
  length: "l_d",
};
