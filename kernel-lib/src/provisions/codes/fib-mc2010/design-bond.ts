import type { DevelopmentLengthDefinition } from "../../model/development-length";
import {
  reported,
  required,
  step,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";

const CLAUSE = "6.1.3.2";

const LIMITS: readonly Limit[] = [
  required(
    CLAUSE,
    "steel == 1",
    "for steel bars; the bond strength of FRP bars must be determined by tests",
  ),
  reported(
    CLAUSE,
    "post_installed == 0",
    "for cast-in bars, not for bars bonded into drilled holes",
  ),
];

const BOND: readonly Step[] = [
  step("eta_1", "if(plain == 1, 0.9, if(coated_bar == 1, 1.4, 1.75))", "number", CLAUSE, "surface"),
  step("eta_2", "if(top_cast == 1, 0.7, 1)", "number", CLAUSE, "casting position"),
  step("eta_3", "if(d_a <= 25, 1, (25 / d_a)^0.3)", "number", CLAUSE, "bar diameter"),
  // Grades are steps of 100 MPa and a measured yield strength lies above its grade: halfway between
  // is the limit.
  step(
    "f_y_grade",
    "if(f_y_stated > 0, f_y_stated - 50, f_yk)",
    "stress",
    CLAUSE,
    "strength that selects the grade: the stated yield strength minus half a grade step, otherwise option f_yk",
  ),
  step(
    "eta_4",
    "if(f_y_grade <= 400, 1.2, if(f_y_grade <= 500, 1, if(f_y_grade <= 600, 0.85, if(f_y_grade <= 700, 0.75, 0.68))))",
    "number",
    CLAUSE,
    "steel grade",
  ),
  step(
    "f_b_0",
    "eta_1 * eta_2 * eta_3 * eta_4 * sqrt(f_c / 25)",
    "stress",
    CLAUSE,
    "basic bond strength, no partial factor",
  ),
];

/**
 * Force anchored at the basic bond strength, 6.1.3: N = n f_b,0 pi phi l_b with
 * f_bd,0 = eta_1 eta_2 eta_3 eta_4 sqrt(f_ck/25) / gamma_cb (N, mm, MPa). The nominal value leaves
 * gamma_cb out; confinement is not counted.
 */
export const basicBondForce: ProvisionDefinition = {
  id: "fib-mc2010/6.1.3",
  title: "Force anchored at the basic bond strength",
  action: "tension",
  modes: ["bond", "splitting"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [...LIMITS, reported(CLAUSE, "f_y_grade <= 800", "for steel grades of at most 800 MPa")],
  steps: [
    ...BOND,
    step("N_b_0", "n_x * n_y * f_b_0 * pi * d_a * h_ef", "force", CLAUSE, "force anchored"),
  ],
  capacity: "N_b_0",
  reduction: step(
    "reduction_cb",
    "1 / gamma_cb",
    "number",
    CLAUSE,
    "reciprocal of the partial factor of bond",
  ),
};

/**
 * Design anchorage length for a stress at the basic bond strength: l_b = (phi/4) sigma_sd / f_bd,0.
 */
export const basicLength: DevelopmentLengthDefinition = {
  id: "fib-mc2010/6.1.3",
  title: "Design anchorage length at the basic bond strength",
  confidence: "H",
  limits: LIMITS,
  steps: [
    ...BOND,
    step("f_bd_0", "f_b_0 / gamma_cb", "stress", CLAUSE, "design bond strength"),
    step("l_b", "d_a / 4 * f_required / f_bd_0", "length", CLAUSE, "design anchorage length"),
  ],
  length: "l_b",
};
