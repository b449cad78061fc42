import { lesserClearDistance } from "../../model/bar-surroundings";
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
 * Mean bond force of deformed steel bars (ACI 408R-03, after Zuo and Darwin 2000): T_b / f'c^(1/4)
 * = [59.9 l_e (c_min + 0.5 d) + 2400 A_b] (0.1 c_max/c_min + 0.9 <= 1.25), with stirrups plus
 * (30.88 t_d t_r N A_tr/n + 3) f'c^(3/4) added to T_b, t_r = 9.6 R_r + 0.28, t_d = 0.72 d + 0.28
 * (lb, in., psi). To be checked against a licensed copy; the bound of 1.25 and the default rib area
 * are from memory.
 */
const meanBond: ProvisionDefinition = {
  id: "aci408r-03/bond",
  title: "Mean bond force of a deformed steel bar",
  action: "tension",
  modes: ["splitting", "bond"],
  confidence: "M",
  toCheck:
    "the coefficients, the limit of 1.25 on the factor for unequal covers and the default rib area; the powers 1/4 and 3/4 of f'c agree with the institute's abstract of the report",
  searched: "November 2026",
  levels: ["expected"],
  limits: [
    required("equation", "steel == 1 && plain == 0", "for deformed steel bars only"),
    reported("equation", "top_cast == 0", "for bars that are not top bars"),
    reported(
      "equation",
      "post_installed == 0",
      "based on tests of cast-in bars, not of bars bonded into drilled holes",
    ),
  ],
  steps: [
    lesserClearDistance("c_min", "equation"),
    step(
      "cover_factor",
      "min(0.1 * cover_ratio + 0.9, 1.25)",
      "number",
      "equation",
      "factor for unequal covers, at most 1.25 (from memory)",
    ),
    step(
      "T_c",
      "f_c^0.25 * (59.9 * h_ef * (c_min + 0.5 * d_a) + 2400 * A_b) * cover_factor",
      "force",
      "equation",
      "bond force without stirrups",
    ),
    step("t_r", "9.6 * R_r + 0.28", "number", "equation", "factor for the ribs"),
    step("t_d", "0.72 * d_a + 0.28", "number", "equation", "factor for the diameter"),
    step(
      "T_s",
      "if(transverse_area > 0, (30.88 * t_d * t_r * transverse_area + 3) * f_c^0.75, 0)",
      "force",
      "equation",
      "bond force added by stirrups",
    ),
    step("T_b", "n_x * n_y * (T_c + T_s)", "force", "equation", "mean bond force"),
  ],
  capacity: "T_b",
  notes: ["It is not limited by yield of the bar."],
};

/** ACI 408R-03, mean bond of steel bars. */
export const aci408: CodeDefinition = {
  id: "aci408r-03",
  title: "ACI 408R, bond and development of straight reinforcing bars in tension, mean bond force",
  edition: "2003, lb, in., psi",
  system: INCH_POUND,
  covers: "Mean bond force of a deformed steel bar at its embedment, with and without stirrups.",
  testedBy: DEVELOPED_BARS,
  options: {
    cover_ratio: {
      quantity: "number",
      value: 1,
      meaning: "ratio of largest to smallest cover, c_max / c_min; 1 gives no benefit",
      clause: "equation",
    },
    transverse_area: {
      quantity: "area",
      value: 0,
      meaning: "stirrups along the embedment: N A_tr / n",
      clause: "equation",
    },
    R_r: {
      quantity: "number",
      value: 0.0727,
      meaning: "relative rib area; 0.0727 is an average for common bars (from memory)",
      clause: "equation",
    },
  },
  jumps: ["The first stirrup adds 3 f'c^(3/4) lb in one step."],
  provisions: [meanBond],
  gaps: ["Bars with heads and hooks; splices."],
};
