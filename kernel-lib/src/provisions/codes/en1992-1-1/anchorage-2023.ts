import { lesserClearDistance } from "../../model/bar-surroundings";
import type { DevelopmentLengthDefinition } from "../../model/development-length";
import {
  reported,
  required,
  step,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";

const CLAUSE = "11.4.2";

const LIMITS: readonly Limit[] = [
  required(CLAUSE, "steel == 1", "for ribbed steel bars only"),
  required(CLAUSE, "plain == 0", "for ribbed bars only; plain bars are not covered"),
  reported(
    CLAUSE,
    "post_installed == 0",
    "for cast-in bars; bars bonded into drilled holes have their own rules",
  ),
];

const FACTORS: readonly Step[] = [
  step("k_cp", "if(top_cast == 1, k_cp_poor, 1)", "number", CLAUSE, "casting position"),
  lesserClearDistance("c_d", CLAUSE),
  step(
    "l_reference",
    "k_lb * k_cp * d_a * sqrt(25 / f_c) * (d_a / 20)^(1 / 3) * sqrt(1.5 * d_a / c_d)",
    "length",
    CLAUSE,
    "length required to anchor 435 MPa",
  ),
];

/**
 * Design force anchored by a ribbed bar, 11.4.2, from
 * l_bd = k_lb k_cp phi (sigma_sd/435)^n (25/f_ck)^(1/2) (phi/20)^(1/3) (1.5 phi/c_d)^(1/2), n = 1
 * up to 435 MPa, 1.5 above (N, mm, MPa). k_lb = 50 holds the partial factor, so only the design
 * level is stated. To be checked against a licensed copy.
 */
export const anchoredForce: ProvisionDefinition = {
  id: "en1992-1-1-2023/11.4.2",
  title: "Design force anchored by a ribbed steel bar",
  action: "tension",
  modes: ["bond", "splitting"],
  confidence: "M",
  searched: "November 2026",
  levels: ["design"],
  limits: [
    ...LIMITS,
    reported(CLAUSE, "h_ef >= 10 * d_a", "for anchorage lengths of at least 10 diameters"),
  ],
  steps: [
    ...FACTORS,
    step(
      "length_share",
      "h_ef / l_reference",
      "number",
      CLAUSE,
      "ratio of the embedment to the length required to anchor 435 MPa",
    ),
    step(
      "sigma_sd",
      "435 * if(length_share <= 1, length_share, length_share^(2 / 3))",
      "stress",
      CLAUSE,
      "design stress anchored",
    ),
    step("N_sd", "n_x * n_y * A_b * sigma_sd", "force", CLAUSE, "design force anchored"),
  ],
  capacity: "N_sd",
};

/**
 * Design anchorage length for a stress, 11.4.2, at least 10 diameters. To be checked against a
 * licensed copy.
 */
export const lengthForStress: DevelopmentLengthDefinition = {
  id: "en1992-1-1-2023/11.4.2",
  title: "Design anchorage length of a ribbed steel bar",
  confidence: "M",
  searched: "November 2026",
  limits: LIMITS,
  steps: [
    ...FACTORS,
    step("n_sigma", "if(f_required <= 435, 1, 1.5)", "number", CLAUSE, "exponent of the stress"),
    step(
      "l_bd_raw",
      "l_reference * (f_required / 435)^n_sigma",
      "length",
      CLAUSE,
      "length before the minimum applies",
    ),
    step("l_bd", "max(l_bd_raw, 10 * d_a)", "length", CLAUSE, "design anchorage length"),
  ],
  length: "l_bd",
};
