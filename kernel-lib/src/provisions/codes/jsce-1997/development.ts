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

const CLAUSE = "development length";

const LIMITS: readonly Limit[] = [
  required(CLAUSE, "frp == 1", "for FRP bars only"),
  reported(
    CLAUSE,
    "post_installed == 0",
    "for cast-in bars, not for bars bonded into drilled holes",
  ),
];

const FACTORS: readonly Step[] = [
  lesserClearDistance("c", CLAUSE),
  step(
    "k_c",
    "(c + transverse_index) / d_a",
    "number",
    CLAUSE,
    "confinement by cover and transverse reinforcement",
  ),
  step(
    "alpha_1",
    "if(k_c <= 1, 1, if(k_c <= 1.5, 0.9, if(k_c <= 2, 0.8, if(k_c <= 2.5, 0.7, 0.6))))",
    "number",
    CLAUSE,
    "factor for confinement",
  ),
  step(
    "f_bo",
    "min(0.28 * min(alpha_2, 1) * f_c^(2 / 3), 3.2)",
    "stress",
    CLAUSE,
    "bond strength of the concrete, no partial factor",
  ),
  step(
    "f_bod",
    "min(0.28 * min(alpha_2, 1) * f_c^(2 / 3) / gamma_c, 3.2)",
    "stress",
    CLAUSE,
    "design bond strength",
  ),
];

/**
 * Force developed by an FRP bar at its embedment, from l_d = alpha_1 f_d d / (4 f_bod) with
 * f_bod = 0.28 alpha_2 f'ck^(2/3) / gamma_c <= 3.2, alpha_2 <= 1 (N, mm, MPa): N = n A_b f_d. The
 * nominal value leaves gamma_c out. To be checked against a licensed copy.
 */
export const developedForce: ProvisionDefinition = {
  id: "jsce-1997/development",
  title: "Force developed by an FRP bar at its embedment",
  action: "tension",
  modes: ["bond", "splitting"],
  confidence: "M",
  searched: "November 2026",
  levels: ["nominal"],
  limits: LIMITS,
  steps: [
    ...FACTORS.slice(0, -1),
    step(
      "f_d_raw",
      "4 * f_bo * h_ef / (alpha_1 * d_a)",
      "stress",
      CLAUSE,
      "stress developed, before it is limited by the bar strength",
    ),
    step("f_d", "min(f_d_raw, f_u_cap)", "stress", CLAUSE, "stress developed"),
    step("N_d", "n_x * n_y * A_b * f_d", "force", CLAUSE, "force developed"),
  ],
  capacity: "N_d",
  notes: [
    "A minimum length of 20 diameters and a factor for top bars are believed to exist and are not coded.",
  ],
};

/**
 * Design development length for a stress: l_d = alpha_1 f_d d / (4 f_bod). To be checked against a
 * licensed copy.
 */
export const lengthForStress: DevelopmentLengthDefinition = {
  id: "jsce-1997/development",
  title: "Development length of an FRP bar",
  confidence: "M",
  searched: "November 2026",
  limits: LIMITS,
  steps: [
    ...FACTORS,
    step("l_d", "alpha_1 * f_required / (4 * f_bod) * d_a", "length", CLAUSE, "development length"),
  ],
  length: "l_d",
};

/** Rupture of the FRP bar in tension: N = n A_b f_u. */
export const frpRupture: ProvisionDefinition = {
  id: "jsce-1997/frp-rupture",
  title: "Rupture of the FRP bar in tension",
  action: "tension",
  modes: ["bar_rupture"],
  confidence: "M",
  searched: "November 2026",
  levels: ["nominal"],
  limits: [required("no clause", "frp == 1", "for FRP bars only")],
  steps: [step("N_u", "n_x * n_y * A_b * f_u", "force", "no clause", "rupture force")],
  capacity: "N_u",
};
