import { lesserCentreDistance } from "../../model/bar-surroundings";
import type { DevelopmentLengthDefinition } from "../../model/development-length";
import {
  reported,
  required,
  step,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";

const CLAUSE = "25.4.2";

const LIMITS: readonly Limit[] = [
  required(CLAUSE, "gfrp == 1", "for glass FRP bars only"),
  reported(
    CLAUSE,
    "post_installed == 0",
    "the equation is based on tests of cast-in bars, not of bars bonded into drilled holes",
  ),
  reported(
    "19.2.1",
    "f_c >= 3000 && f_c <= 10000",
    "concrete of 3,000 to 10,000 psi (to be checked)",
  ),
];

const FACTORS: readonly Step[] = [
  lesserCentreDistance("c_b", CLAUSE),
  step("c_b_ratio", "min(c_b / d_a, 3.5)", "number", CLAUSE, "c_b over diameter, at most 3.5"),
  step("psi_t", "if(top_cast == 1, 1.5, 1)", "number", CLAUSE, "bar location factor"),
];

/**
 * Force developed by a glass FRP bar at its embedment, from l_d = d (psi_t f_fr/sqrt(f'c) -
 * 340)/(13.6 + c_b/d): N = n A_b f_fr (lb, in., psi). To be checked against a licensed copy, above
 * all whether psi_t stands where it does.
 */
export const developedForce: ProvisionDefinition = {
  id: "aci440.11-22/25.4.2",
  title: "Force developed by a glass FRP bar at its embedment",
  action: "tension",
  modes: ["bond", "splitting"],
  confidence: "M",
  toCheck: "the whole equation, in particular whether psi_t multiplies only the stress",
  searched: "November 2026",
  levels: ["nominal"],
  limits: [
    ...LIMITS,
    reported(
      CLAUSE,
      "h_ef >= max(20 * d_a, 12)",
      "for embedments of at least 20 diameters and 12 in.",
    ),
  ],
  steps: [
    ...FACTORS,
    step(
      "f_fu",
      "C_E * f_u_cap",
      "stress",
      "20.2.2",
      "strength of the bar; C_E = 1 for comparison with tests",
    ),
    step(
      "f_fr_raw",
      "sqrt(f_c) / psi_t * ((13.6 + c_b_ratio) * h_ef / d_a + 340)",
      "stress",
      CLAUSE,
      "stress developed, before it is limited by the bar strength",
    ),
    step("f_fr", "min(f_fr_raw, f_fu)", "stress", CLAUSE, "stress developed"),
    step("N_fr", "n_x * n_y * A_b * f_fr", "force", CLAUSE, "force developed"),
  ],
  capacity: "N_fr",
};

/**
 * Development length for a stress, at least 20 diameters and 12 in. To be checked against a
 * licensed copy.
 */
export const lengthForStress: DevelopmentLengthDefinition = {
  id: "aci440.11-22/25.4.2",
  title: "Development length of a glass FRP bar",
  confidence: "M",
  toCheck: "the whole equation, in particular whether psi_t multiplies only the stress",
  searched: "November 2026",
  limits: LIMITS,
  steps: [
    ...FACTORS,
    step(
      "l_d_raw",
      "d_a * (psi_t * f_required / sqrt(f_c) - 340) / (13.6 + c_b_ratio)",
      "length",
      CLAUSE,
      "length before the minimum applies",
    ),
    step(
      "l_d",
      "if(lap_splice == 1, 1.3, 1) * max(l_d_raw, 20 * d_a, 12)",
      "length",
      CLAUSE,
      "development length, or lap splice",
    ),
  ],
  length: "l_d",
};

/**
 * Rupture of the glass FRP bar in tension: N = n A_b C_E f_fu*. To be checked against a licensed
 * copy.
 */
export const frpRupture: ProvisionDefinition = {
  id: "aci440.11-22/20.2.2",
  title: "Rupture of the glass FRP bar in tension",
  action: "tension",
  modes: ["bar_rupture"],
  confidence: "M",
  searched: "November 2026",
  levels: ["nominal", "design"],
  limits: [required("20.2.2", "gfrp == 1", "for glass FRP bars only")],
  steps: [
    step(
      "f_fu",
      "C_E * f_u",
      "stress",
      "20.2.2",
      "strength of the bar; C_E = 1 for comparison with tests",
    ),
    step("N_fu", "n_x * n_y * A_b * f_fu", "force", "20.2.2", "rupture force"),
  ],
  capacity: "N_fu",
  reduction: step("phi", "0.55", "number", "21.2", "strength reduction factor, tension-controlled"),
};
