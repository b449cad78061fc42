import type { DevelopmentLengthDefinition } from "../../model/development-length";
import {
  reported,
  required,
  step,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";

const CLAUSE = "9.3.2";

const LIMITS: readonly Limit[] = [
  required(CLAUSE, "frp == 1", "for FRP bars only"),
  required(
    CLAUSE,
    "bfrp == 0 || k_4_basalt > 0",
    "no factor is stated for basalt; option k_4_basalt sets one",
  ),
  required(
    CLAUSE,
    "sand_coated + sand_coated_helical + helically_wrapped + ribbed + indented > 0",
    "no surface factor is stated for a plain, threaded or unknown surface",
  ),
  reported(
    CLAUSE,
    "post_installed == 0",
    "for cast-in bars, not for bars bonded into drilled holes",
  ),
];

const FACTORS: readonly Step[] = [
  step("k_1", "if(top_cast == 1, 1.3, 1)", "number", CLAUSE, "bar location"),
  step(
    "k_2",
    "if(lightweight == 1, if(semi_low_density == 1, 1.2, 1.3), 1)",
    "number",
    CLAUSE,
    "concrete density",
  ),
  step("k_3", "if(A_b <= 300, 0.8, 1)", "number", CLAUSE, "bar size"),
  step("k_4", "if(afrp == 1, 1.25, if(bfrp == 1, k_4_basalt, 1))", "number", CLAUSE, "fibre"),
  step(
    "k_5",
    "if(sand_coated == 1 || sand_coated_helical == 1, 1, if(indented == 1, 1.8, 1.05))",
    "number",
    CLAUSE,
    "surface factor; 1.0 for helically wrapped with sand (to be checked against a licensed copy)",
  ),
  step("k_all", "k_1 * k_2 * k_3 * k_4 * k_5", "number", CLAUSE, "product of the factors"),
  step(
    "d_cs",
    "min(c_cover + d_a / 2, 2 / 3 * (s_clear + d_a), 2.5 * d_a)",
    "length",
    CLAUSE,
    "smaller of the distance to the surface and two thirds of the center-to-center spacing, at most 2.5 d",
  ),
  step(
    "root_f_c",
    "min(sqrt(f_c), 5)",
    "number",
    CLAUSE,
    "square root of the concrete strength, at most 5 MPa",
  ),
];

/**
 * Force developed by an FRP bar at its embedment, from l_d = 1.15 (k_1 k_2 k_3 k_4 k_5 / d_cs) (f_F
 * / sqrt(f'c)) A_b: N = n A_b f_F with f_F solved for the embedment, not above the bar's strength
 * (N, mm, MPa). k_5 of a helically wrapped surface with sand is to be checked against a licensed
 * copy.
 */
export const developedForce: ProvisionDefinition = {
  id: "csa-s806-12/9.3.2",
  title: "Force developed by an FRP bar at its embedment",
  action: "tension",
  modes: ["bond", "splitting"],
  confidence: "M",
  toCheck: "k_5 = 1.0 for a helically wrapped surface with sand; the rest is well known",
  levels: ["nominal"],
  limits: [...LIMITS, reported(CLAUSE, "h_ef >= 300", "for embedments of at least 300 mm")],
  steps: [
    ...FACTORS,
    step(
      "f_F_raw",
      "h_ef * d_cs * root_f_c / (1.15 * k_all * A_b)",
      "stress",
      CLAUSE,
      "stress developed, before it is limited by the bar strength",
    ),
    step("f_F", "min(f_F_raw, f_u_cap)", "stress", CLAUSE, "stress developed"),
    step("N_F", "n_x * n_y * A_b * f_F", "force", CLAUSE, "force developed"),
  ],
  capacity: "N_F",
};

/**
 * Development length for a stress, 9.3.2: l_d = 1.15 (k / d_cs) (f_F / sqrt(f'c)) A_b, at least 300
 * mm.
 */
export const lengthForStress: DevelopmentLengthDefinition = {
  id: "csa-s806-12/9.3.2",
  title: "Development length of an FRP bar",
  confidence: "M",
  toCheck: "k_5 = 1.0 for a helically wrapped surface with sand; the rest is well known",
  limits: LIMITS,
  steps: [
    ...FACTORS,
    step(
      "l_d_raw",
      "1.15 * k_all / d_cs * f_required / root_f_c * A_b",
      "length",
      CLAUSE,
      "length before the minimum applies",
    ),
    step("l_d", "max(l_d_raw, 300)", "length", CLAUSE, "development length"),
  ],
  length: "l_d",
};

/** Rupture of the FRP bar in tension: N = n A_b f_u, before the code's resistance factor. */
export const frpRupture: ProvisionDefinition = {
  id: "csa-s806-12/frp-rupture",
  title: "Rupture of the FRP bar in tension",
  action: "tension",
  modes: ["bar_rupture"],
  confidence: "H",
  levels: ["nominal"],
  limits: [required("no clause", "frp == 1", "for FRP bars only")],
  steps: [step("N_Fu", "n_x * n_y * A_b * f_u", "force", "no clause", "rupture force")],
  capacity: "N_Fu",
};
