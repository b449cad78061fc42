import type { DevelopmentLengthDefinition } from "../../model/development-length";
import {
  reported,
  required,
  step,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";

const CLAUSE = "16.8.4";

const LIMITS: readonly Limit[] = [
  required(CLAUSE, "frp == 1", "for FRP bars only"),
  reported(
    CLAUSE,
    "post_installed == 0",
    "for cast-in bars, not for bars bonded into drilled holes",
  ),
];

const FACTORS: readonly Step[] = [
  step("k_1", "if(top_cast == 1, 1.3, 1)", "number", CLAUSE, "bar location (from memory)"),
  step(
    "d_cs",
    "min(c_cover + d_a / 2, 2 / 3 * (s_clear + d_a))",
    "length",
    CLAUSE,
    "smaller of the distance to the surface and two thirds of the center-to-center spacing",
  ),
  step(
    "d_cs_used",
    "min(d_cs + if(transverse_index > 0, transverse_index * E_b / 200000, 0), 2.5 * d_a)",
    "length",
    CLAUSE,
    "the same with transverse reinforcement, at most 2.5 d",
  ),
  step("f_cr", "0.4 * sqrt(f_c)", "stress", CLAUSE, "cracking strength of the concrete"),
];

/**
 * Force developed by an FRP bar at its embedment, from l_d = 0.45 k_1 k_4 / (d_cs + K_tr E_FRP/E_s)
 * (f_FRP/f_cr) A with f_cr = 0.4 sqrt(f'c) and the sum in the denominator not above 2.5 d (N, mm,
 * MPa): N = n A_b f. To be checked against a licensed copy, above all the place of k_4.
 */
export const developedForce: ProvisionDefinition = {
  id: "csa-s6-14/16.8.4",
  title: "Force developed by an FRP bar at its embedment",
  action: "tension",
  modes: ["bond", "splitting"],
  confidence: "M",
  toCheck:
    "the whole equation, in particular k_4 in the numerator, which gives a bar of lower bond strength a shorter length",
  searched: "November 2026",
  levels: ["nominal"],
  limits: LIMITS,
  steps: [
    ...FACTORS,
    step(
      "f_raw",
      "h_ef * d_cs_used * f_cr / (0.45 * k_1 * k_4 * A_b)",
      "stress",
      CLAUSE,
      "stress developed, before it is limited by the bar strength",
    ),
    step("f_developed", "min(f_raw, f_u_cap)", "stress", CLAUSE, "stress developed"),
    step("N_developed", "n_x * n_y * A_b * f_developed", "force", CLAUSE, "force developed"),
  ],
  capacity: "N_developed",
};

/** Development length for a stress, 16.8.4. To be checked against a licensed copy. */
export const lengthForStress: DevelopmentLengthDefinition = {
  id: "csa-s6-14/16.8.4",
  title: "Development length of an FRP bar",
  confidence: "M",
  toCheck:
    "the whole equation, in particular k_4 in the numerator, which gives a bar of lower bond strength a shorter length",
  searched: "November 2026",
  limits: LIMITS,
  steps: [
    ...FACTORS,
    step(
      "l_d",
      "0.45 * k_1 * k_4 / d_cs_used * f_required / f_cr * A_b",
      "length",
      CLAUSE,
      "development length",
    ),
  ],
  length: "l_d",
};
