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

const CLAUSE = "2.9.7.4";

const LIMITS: readonly Limit[] = [
  required(CLAUSE, "gfrp == 1", "for glass FRP bars only"),
  reported(
    CLAUSE,
    "post_installed == 0",
    "the equation is based on tests of cast-in bars, not of bars bonded into drilled holes",
  ),
];

const FACTORS: readonly Step[] = [
  lesserCentreDistance("C", CLAUSE),
  step("C_ratio", "min(C / d_a, 3.5)", "number", CLAUSE, "C over diameter, at most 3.5"),
  step("alpha", "if(top_cast == 1, 1.5, 1)", "number", CLAUSE, "bar location factor"),
];

/**
 * Force developed by a glass FRP bar at its embedment, from l_d = d (31.6 alpha f_fr/sqrt(f'c) -
 * 340)/(13.6 + C/d): N = n A_b f_fr (kip, in., ksi). Equation and clause number to be checked
 * against a licensed copy.
 */
export const developedForce: ProvisionDefinition = {
  id: "aashto-gfrp2-2018/2.9.7.4",
  title: "Force developed by a glass FRP bar at its embedment",
  action: "tension",
  modes: ["bond", "splitting"],
  confidence: "M",
  searched: "November 2026",
  levels: ["nominal"],
  limits: [
    ...LIMITS,
    reported(CLAUSE, "h_ef >= 20 * d_a", "for embedments of at least 20 diameters"),
  ],
  steps: [
    ...FACTORS,
    step(
      "f_fu",
      "C_E * f_u_cap",
      "stress",
      "2.4.2.1",
      "strength of the bar; C_E = 1 for comparison with tests",
    ),
    step(
      "f_fr_raw",
      "sqrt(f_c) / (31.6 * alpha) * ((13.6 + C_ratio) * h_ef / d_a + 340)",
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
 * Development length for a stress, at least 20 diameters. To be checked against a licensed copy.
 */
export const lengthForStress: DevelopmentLengthDefinition = {
  id: "aashto-gfrp2-2018/2.9.7.4",
  title: "Development length of a glass FRP bar",
  confidence: "M",
  searched: "November 2026",
  limits: LIMITS,
  steps: [
    ...FACTORS,
    step(
      "l_d_raw",
      "d_a * (31.6 * alpha * f_required / sqrt(f_c) - 340) / (13.6 + C_ratio)",
      "length",
      CLAUSE,
      "length before the minimum applies",
    ),
    step(
      "l_d",
      "if(lap_splice == 1, 1.3, 1) * max(l_d_raw, 20 * d_a)",
      "length",
      CLAUSE,
      "development length, or lap splice",
    ),
  ],
  length: "l_d",
};

/** Rupture of the glass FRP bar in tension: N = n A_b C_E f_fu*. */
export const frpRupture: ProvisionDefinition = {
  id: "aashto-gfrp2-2018/2.4.2.1",
  title: "Rupture of the glass FRP bar in tension",
  action: "tension",
  modes: ["bar_rupture"],
  confidence: "M",
  searched: "November 2026",
  levels: ["nominal"],
  limits: [required("2.4.2.1", "gfrp == 1", "for glass FRP bars only")],
  steps: [
    step(
      "f_fu",
      "C_E * f_u",
      "stress",
      "2.4.2.1",
      "strength of the bar; C_E = 1 for comparison with tests",
    ),
    step("N_fu", "n_x * n_y * A_b * f_fu", "force", "2.4.2.1", "rupture force"),
  ],
  capacity: "N_fu",
};
