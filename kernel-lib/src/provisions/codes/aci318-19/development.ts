import type { DevelopmentLengthDefinition } from "../../model/development-length";
import { reported, step, type CodeOption, type ProvisionDefinition } from "../../model/definition";
import type { Form } from "./form";
import { whether } from "../../model/yes-or-no";
import { DEVELOPED_BARS } from "../../model/tested-by";
import { LIMITS, factors, yieldByGrade } from "./development-factors";

/** What development of bars asks of the user beside the options of Chapter 17. */
export const DEVELOPMENT_OPTIONS: Readonly<Record<string, CodeOption>> = {
  confining_stirrups: {
    quantity: "number",
    value: 0,
    meaning: whether(
      "bars spaced at least one diameter are confined by at least the minimum stirrups of the code (simplified length)",
    ),
    clause: "25.4.2.3",
  },
  drilled_in_for_comparison: {
    quantity: "number",
    value: 0,
    meaning: whether(
      "25.4.2 is also computed for bars bonded into drilled holes, for comparison only",
    ),
    clause: "25.4.2",
  },
  steel_grade: {
    quantity: "number",
    value: 60,
    meaning:
      "specified grade of the steel bar, ksi: 40, 60, 80 or 100; used for rows without a stated yield strength",
    clause: "25.4.2.5",
  },
};

/**
 * Force developed by a deformed bar at its embedment, 25.4.2.4 solved for the stress:
 * f_s = (40/3) lambda sqrt(f'c) [(c_b + K_tr)/d_b] (l_e/d_b) / (psi_t psi_e psi_s psi_g), not above
 * f_y (lb, in., psi; metric form with 1.1). A code-level value, not a mean.
 */
export const developedForce = (form: Form): ProvisionDefinition => ({
  id: "aci318-19/25.4.2",
  title: "Force developed by a deformed steel bar at its embedment",
  action: "tension",
  modes: ["bond", "splitting"],
  testedBy: DEVELOPED_BARS,
  confidence: "H",
  levels: ["nominal"],
  limits: [
    ...LIMITS,
    reported(
      "25.4.2.1",
      `h_ef >= ${form.leastDevelopment}`,
      "for embedments of at least 12 in. (300 mm)",
    ),
  ],
  steps: [
    ...factors(form),
    step(
      "f_s_raw",
      `${form.development} * lambda_d * root_f_c * confinement * (h_ef / d_a) / psi_all`,
      "stress",
      "25.4.2.4",
      "stress developed, before it is limited by yield",
    ),
    step(
      "f_y_used",
      `if(f_y_stated > 0, f_y_stated, ${yieldByGrade(form)})`,
      "stress",
      "20.2.2",
      "yield strength: as stated in the row, otherwise that of the grade",
    ),
    step("f_s", "min(f_s_raw, f_y_used)", "stress", "25.4.2.4", "stress developed"),
    step("u_b", "f_s * d_a / (4 * h_ef)", "stress", "25.4.2.4", "equivalent uniform bond stress"),
    step("N_s", "n_x * n_y * A_b * f_s", "force", "25.4.2.4", "force developed"),
  ],
  capacity: "N_s",
});

/**
 * Development length for a stress, 25.4.2.4: l_d = (3/40) f/(lambda sqrt(f'c)) psi / [(c_b +
 * K_tr)/d_b] d_b, at least 12 in. (300 mm).
 */
export const lengthForStress = (form: Form): DevelopmentLengthDefinition => ({
  id: "aci318-19/25.4.2",
  title: "Development length of a deformed steel bar",
  confidence: "H",
  limits: LIMITS,
  steps: [
    ...factors(form),
    step(
      "l_d_raw",
      `f_required * psi_all / (${form.development} * lambda_d * root_f_c * confinement) * d_a`,
      "length",
      "25.4.2.4",
      "length before the minimum applies",
    ),
    step(
      "l_d",
      `max(l_d_raw, ${form.leastDevelopment})`,
      "length",
      "25.4.2.1",
      "development length",
    ),
  ],
  length: "l_d",
});
