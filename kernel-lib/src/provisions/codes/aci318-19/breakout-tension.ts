import {
  required,
  reported,
  step,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";
import type { Form } from "./form";
import { concreteTensionReduction } from "./reduction-factors";
import { whether } from "../../model/yes-or-no";

/** Strength of concrete used in equations is limited, 17.3.1. */
export const limitedConcreteStrength = (form: Form): Step =>
  step(
    "f_c_used",
    `min(f_c, if(post_installed == 1, ${form.strengthPostInstalled}, ${form.strengthCastIn}))`,
    "stress",
    "17.3.1",
    "concrete strength used, limited",
  );

/** Lightweight factor for concrete failure, Table 17.2.4.1; concerns lightweight concrete only. */
export const lightweightConcreteFailure: Step = step(
  "lambda_a",
  "if(lightweight == 1, if(post_installed == 1, 0.8, 1) * lambda, 1)",
  "number",
  "17.2.4.1",
  "lightweight factor, concrete failure",
);

/** A straight cast-in bar has no head for a cone to form at. */
export const needsHeadOrHole: Limit = required(
  "17.6.2.2",
  "post_installed == 1 || headed_cast_in == 1",
  "a straight cast-in bar has no head; option headed_cast_in treats it as headed",
);

/**
 * Critical edge distance for splitting, Table 17.9.5: the product's, else 2 h_ef for adhesive bars.
 */
export const CRITICAL_EDGE = "if(product_c_ac > 0, product_c_ac, 2 * h_ef)";

/** Adhesive embedment range, 17.3.3. */
export const adhesiveEmbedmentLimits: readonly Limit[] = [
  reported(
    "17.3.3",
    "post_installed == 0 || (h_ef >= 4 * d_a && h_ef <= 20 * d_a)",
    "for adhesive bars with embedments of 4 to 20 diameters",
  ),
];

/**
 * Steps of 17.6.2 up to N_cbg; reused by pryout, whose groups may hold bars that are apart in
 * breakout: `apart` then leaves out the ground between cones that do not meet.
 */
export function breakoutSteps(form: Form, apart = false): Step[] {
  const between = (side: "x" | "y"): string => (apart ? `min(s_${side}, s_cr_N)` : `s_${side}`);
  const k = `if(post_installed == 1, if(product_k_c > 0, min(product_k_c, ${form.breakoutCastIn}), ${form.breakoutPostInstalled}), ${form.breakoutCastIn})`;
  return [
    limitedConcreteStrength(form),
    lightweightConcreteFailure,
    step("s_cr_N", "3 * h_ef", "length", "17.5.1.3.1", "critical spacing of bars in breakout"),
    step(
      "near_edges",
      "(c_1 < 1.5 * h_ef) + (c_2 < 1.5 * h_ef) + (c_3 < 1.5 * h_ef) + (c_4 < 1.5 * h_ef)",
      "number",
      "17.6.2.1.2",
      "number of edges closer than 1.5 h_ef",
    ),
    step(
      "c_far",
      "max(if(c_1 < 1.5 * h_ef, c_1, 0), if(c_2 < 1.5 * h_ef, c_2, 0), if(c_3 < 1.5 * h_ef, c_3, 0), if(c_4 < 1.5 * h_ef, c_4, 0))",
      "length",
      "17.6.2.1.2",
      "largest edge distance among those",
    ),
    step(
      "h_ef_prime",
      "if(near_edges >= 3, min(h_ef, max(c_far / 1.5, s_x / 3, s_y / 3)), h_ef)",
      "length",
      "17.6.2.1.2",
      "effective embedment for the areas and N_b with three or more near edges",
    ),
    step(
      "A_Nco",
      "9 * h_ef_prime^2",
      "area",
      "17.6.2.1.4",
      "projected area of one bar remote from edges",
    ),
    step(
      "A_Nc_rect",
      `(min(c_1, 1.5 * h_ef_prime) + (n_x - 1) * ${between("x")} + min(c_3, 1.5 * h_ef_prime)) * (min(c_2, 1.5 * h_ef_prime) + (n_y - 1) * ${between("y")} + min(c_4, 1.5 * h_ef_prime))`,
      "area",
      "17.6.2.1.1",
      "projected rectangle of the group, limited by the edges",
    ),
    step(
      "A_Nc",
      "min(A_Nc_rect, n_x * n_y * A_Nco)",
      "area",
      "17.6.2.1.1",
      "projected area of the group",
    ),
    step("k_c", k, "number", "17.6.2.2.1", "breakout coefficient"),
    step(
      "deep",
      `deep_breakout == 1 && post_installed == 0 && h_ef_prime >= ${form.deepFrom} && h_ef_prime <= ${form.deepTo}`,
      "number",
      "17.6.2.2.3",
      whether("the 5/3-power form is used"),
    ),
    step(
      "N_b",
      `if(deep, ${form.deepBreakout} * lambda_a * sqrt(f_c_used) * h_ef_prime^(5 / 3), k_c * lambda_a * sqrt(f_c_used) * h_ef_prime^1.5)`,
      "force",
      "17.6.2.2.1",
      "basic breakout strength of one bar in cracked concrete",
    ),
    step(
      "psi_ec_N",
      "1 / (1 + e_x / (1.5 * h_ef_prime)) * (1 / (1 + e_y / (1.5 * h_ef_prime)))",
      "number",
      "17.6.2.3.1",
      "eccentricity factor, product of both directions",
    ),
    step("c_a_min", "min(c_1, c_2, c_3, c_4)", "length", "17.6.2.4.1", "minimum edge distance"),
    step(
      "psi_ed_N",
      "if(c_a_min >= 1.5 * h_ef_prime, 1, 0.7 + 0.3 * c_a_min / (1.5 * h_ef_prime))",
      "number",
      "17.6.2.4.1",
      "edge factor",
    ),
    step(
      "psi_c_N",
      "if(cracked == 1, 1, if(post_installed == 1, if(product_k_c > 0, 1, 1.4), 1.25))",
      "number",
      "17.6.2.5.1",
      "factor for uncracked concrete",
    ),
    step(
      "c_ac",
      CRITICAL_EDGE,
      "length",
      "17.9.5",
      "critical edge distance of adhesive bars; 2 h_ef without product tests",
    ),
    step(
      "psi_cp_N",
      "if(post_installed == 0 || cracked == 1 || supplementary_reinforcement == 1 || c_a_min >= c_ac, 1, min(1, max(c_a_min, 1.5 * h_ef) / c_ac))",
      "number",
      "17.6.2.6.1",
      "splitting factor",
    ),
    step(
      "N_cbg",
      "A_Nc / A_Nco * psi_ec_N * psi_ed_N * psi_c_N * psi_cp_N * N_b",
      "force",
      "17.6.2.1",
      "nominal breakout strength",
    ),
  ];
}

/**
 * Concrete breakout in tension, 17.6.2: N_cbg = (A_Nc/A_Nco) psi_ec,N psi_ed,N psi_c,N psi_cp,N N_b
 * with N_b = k_c lambda_a sqrt(f'c) h_ef^1.5, for a single bar or a rectangular group near up to
 * four edges.
 *
 * Units: lb, in., psi (metric form: N, mm, MPa). The reduced depth for three or more near edges
 * enters the areas, N_b, psi_ec,N and psi_ed,N; the true depth stays in psi_cp,N.
 */
export const breakoutInTension = (form: Form): ProvisionDefinition => ({
  id: "aci318-19/17.6.2",
  title: "Concrete breakout strength in tension",
  action: "tension",
  modes: ["concrete_breakout"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [needsHeadOrHole, ...adhesiveEmbedmentLimits],
  steps: breakoutSteps(form),
  capacity: "N_cbg",
  reduction: concreteTensionReduction,
  split: { x: "s_cr_N", y: "s_cr_N" },
});
