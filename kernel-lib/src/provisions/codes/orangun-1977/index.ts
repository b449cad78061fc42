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
 * Mean bond load of deformed steel bars (Orangun, Jirsa, Breen 1977): u / sqrt(f'c) = 1.2 + 3
 * c_min/d + 50 d/l_e + A_tr f_yt / (500 s d) (lb, in., psi); N = n u pi d l_e. c_min/d counts up to
 * 2.5 and the last term up to 3 (from memory, to be checked against a licensed copy).
 */
const meanBond: ProvisionDefinition = {
  id: "orangun-1977/bond",
  title: "Mean bond load of a deformed steel bar",
  action: "tension",
  modes: ["splitting", "bond"],
  confidence: "M",
  toCheck:
    "the limits of 2.5 on c_min/d and of 3 on the transverse term; the equation is well known",
  searched: "November 2026",
  levels: ["expected"],
  limits: [
    required("equation", "steel == 1 && plain == 0", "for deformed steel bars only"),
    reported(
      "equation",
      "c_min <= 2.5 * d_a",
      "for covers of at most 2.5 diameters; beyond, pull-out governs, which the equation does not cover, and 2.5 is used (from memory)",
    ),
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
      "cover_counted",
      "min(c_min / d_a, 2.5)",
      "number",
      "equation",
      "minimum cover in diameters, at most 2.5",
    ),
    step(
      "transverse_counted",
      "min(transverse_stress / 500, 3)",
      "number",
      "equation",
      "term for transverse reinforcement, at most 3",
    ),
    step(
      "u",
      "sqrt(f_c) * (1.2 + 3 * cover_counted + 50 * d_a / h_ef + transverse_counted)",
      "stress",
      "equation",
      "mean bond stress",
    ),
    step("N_u", "n_x * n_y * u * pi * d_a * h_ef", "force", "equation", "mean bond load"),
  ],
  capacity: "N_u",
};

/** Orangun, Jirsa and Breen 1977, mean bond of steel bars. */
export const orangun: CodeDefinition = {
  id: "orangun-1977",
  title: "Bond of deformed steel bars, mean (Orangun, Jirsa, Breen 1977)",
  edition: "lb, in., psi",
  system: INCH_POUND,
  covers: "Mean bond load of a deformed steel bar at its embedment.",
  testedBy: DEVELOPED_BARS,
  options: {
    transverse_stress: {
      quantity: "stress",
      value: 0,
      meaning: "transverse reinforcement A_tr f_yt / (s d_b)",
      clause: "equation",
    },
  },
  readings: [
    "The limits of 2.5 and 3 on cover and transverse reinforcement are from memory. They affect only bars beyond these values.",
  ],
  provisions: [meanBond],
  gaps: ["Top bars."],
};
