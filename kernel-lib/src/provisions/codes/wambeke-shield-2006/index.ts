import { lesserCentreDistance } from "../../model/bar-surroundings";
import {
  reported,
  required,
  step,
  type CodeDefinition,
  type ProvisionDefinition,
} from "../../model/definition";
import { INCH_POUND } from "../../model/unit-system";
import { DEVELOPED_BARS } from "../../model/tested-by";

/**
 * Mean bond load of glass FRP bars (Wambeke and Shield 2006): u / sqrt(f'c) = 4.0 + 0.3 C/d + 100
 * d/l_e, C/d not above
 * 3.5 (lb, in., psi); N = n u pi d l_e. Fitted to beam-type tests of mostly cast-in bars; splitting
 * and pull-out.
 */
const meanBond: ProvisionDefinition = {
  id: "wambeke-shield-2006/bond",
  title: "Mean bond load of an FRP bar",
  action: "tension",
  modes: ["splitting", "bond"],
  confidence: "H",
  levels: ["expected"],
  limits: [
    required("equation", "frp == 1", "for FRP bars only"),
    reported("equation", "gfrp == 1", "fitted to glass FRP bars"),
    reported(
      "equation",
      "h_ef >= 20 * d_a",
      "for the recommended embedment of at least 20 diameters",
    ),
    reported("equation", "top_cast == 0", "for bars that are not top bars"),
    reported(
      "equation",
      "post_installed == 0",
      "based on tests of cast-in bars, not of bars bonded into drilled holes",
    ),
  ],
  steps: [
    lesserCentreDistance("C", "equation"),
    step("C_ratio", "min(C / d_a, 3.5)", "number", "equation", "C over diameter, at most 3.5"),
    step(
      "u",
      "sqrt(f_c) * (4 + 0.3 * C_ratio + 100 * d_a / h_ef)",
      "stress",
      "equation",
      "mean bond stress",
    ),
    step("N_u", "n_x * n_y * u * pi * d_a * h_ef", "force", "equation", "mean bond load"),
  ],
  capacity: "N_u",
  notes: ["It is not limited by the bar strength."],
};

/** Wambeke and Shield 2006, mean bond of FRP bars. */
export const wambekeShield: CodeDefinition = {
  id: "wambeke-shield-2006",
  title: "Bond of glass FRP bars, mean (Wambeke and Shield 2006)",
  edition: "lb, in., psi",
  system: INCH_POUND,
  covers: "Mean bond load of a glass FRP bar at its embedment.",
  testedBy: DEVELOPED_BARS,
  options: {},
  provisions: [meanBond],
  gaps: ["The scatter of the fit is not given."],
};
