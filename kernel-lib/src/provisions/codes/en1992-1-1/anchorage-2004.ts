import type { DevelopmentLengthDefinition } from "../../model/development-length";
import {
  reported,
  required,
  step,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";

const LIMITS: readonly Limit[] = [
  required("8.4.2", "steel == 1", "for ribbed steel bars only"),
  required("8.4.2", "plain == 0", "for ribbed bars only; plain bars are not covered"),
  reported(
    "8.4.2",
    "post_installed == 0",
    "for cast-in bars; bars bonded into drilled holes follow the product approval",
  ),
];

const BOND: readonly Step[] = [
  step("f_ck", "min(f_c, 60)", "stress", "8.4.2(2)", "concrete strength used, at most 60 MPa"),
  step(
    "f_ctm",
    "if(f_ck <= 50, 0.3 * f_ck^(2 / 3), 2.12 * ln(1 + (f_ck + 8) / 10))",
    "stress",
    "Table 3.1",
    "mean tensile strength of the concrete",
  ),
  step("f_ctk", "0.7 * f_ctm", "stress", "Table 3.1", "5 % fractile of the tensile strength"),
  step("eta_1", "if(top_cast == 1, 0.7, 1)", "number", "8.4.2(2)", "bond conditions"),
  step("eta_2", "if(d_a <= 32, 1, (132 - d_a) / 100)", "number", "8.4.2(2)", "bar diameter"),
  step(
    "f_bk",
    "2.25 * eta_1 * eta_2 * f_ctk",
    "stress",
    "8.4.2(2)",
    "bond strength, no partial factor",
  ),
];

/** Gain from cover of straight bars, Table 8.2 (from memory), only when asked for. */
const COVER: readonly Step[] = [
  step(
    "c_d",
    "if(count_cover == 1, min(c_cover, s_clear / 2), d_a)",
    "length",
    "8.4.4",
    "smaller of the clear cover and half the clear spacing; one diameter where the effect of cover is ignored",
  ),
  step(
    "alpha_2",
    "max(0.7, min(1, 1 - 0.15 * (c_d - d_a) / d_a))",
    "number",
    "Table 8.2",
    "factor for cover",
  ),
];

const reduction: Step = step(
  "reduction_c",
  "1 / gamma_c",
  "number",
  "3.1.6",
  "reciprocal of the partial factor of concrete",
);

/**
 * Force anchored by a ribbed bar over its embedment, 8.4: N = n f_bd pi phi l_b with f_bd = 2.25
 * eta_1 eta_2 f_ctd (N, mm, MPa), over alpha_2 = 1 - 0.15 (c_d - phi)/phi, 0.7 to 1, where option
 * count_cover asks for it; alpha_1 and alpha_3 to alpha_5 are 1. The nominal value leaves gamma_c
 * out.
 */
export const anchoredForce: ProvisionDefinition = {
  id: "en1992-1-1-2004/8.4",
  title: "Force anchored by a ribbed steel bar",
  action: "tension",
  modes: ["bond", "splitting"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [
    ...LIMITS,
    reported(
      "8.4.4",
      "h_ef >= max(10 * d_a, 100)",
      "for anchorage lengths of at least 10 diameters and 100 mm",
    ),
  ],
  steps: [
    ...BOND,
    ...COVER,
    step("N_b", "n_x * n_y * f_bk * pi * d_a * h_ef / alpha_2", "force", "8.4.4", "force anchored"),
  ],
  capacity: "N_b",
  reduction,
};

/**
 * Design anchorage length for a stress, 8.4.3: l_b,rqd = (phi/4) sigma_sd / f_bd; l_bd = alpha_2
 * l_b,rqd, not below max(0.3 l_b,rqd, 10 phi, 100 mm).
 */
export const lengthForStress: DevelopmentLengthDefinition = {
  id: "en1992-1-1-2004/8.4",
  title: "Design anchorage length of a ribbed steel bar",
  confidence: "H",
  limits: LIMITS,
  steps: [
    ...BOND,
    step("f_bd", "f_bk / gamma_c", "stress", "8.4.2(2)", "design bond strength"),
    step("l_b_rqd", "d_a / 4 * f_required / f_bd", "length", "8.4.3", "basic anchorage length"),
    ...COVER,
    step(
      "l_bd",
      "max(alpha_2 * l_b_rqd, 0.3 * l_b_rqd, 10 * d_a, 100)",
      "length",
      "8.4.4",
      "design anchorage length",
    ),
  ],
  length: "l_bd",
};

/** The yield strength that the row states, else option f_yk; under the edition's own clause. */
export const yieldStrength = (clause: string): Step =>
  step(
    "f_yk_used",
    "if(f_y_stated > 0, f_y_stated, f_yk)",
    "stress",
    clause,
    "yield strength: as stated in the row, otherwise option f_yk",
  );

/** Yield of the bar: N = n A_s f_yk; under the edition's own clauses. */
export const barYield = (
  id: string,
  clause: string,
  factorClause: string,
): ProvisionDefinition => ({
  id,
  title: "Yield of the steel bar",
  action: "tension",
  modes: ["yield", "bar_rupture"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [required(clause, "steel == 1", "for steel bars only")],
  steps: [
    yieldStrength(clause),
    step("N_y", "n_x * n_y * A_b * f_yk_used", "force", clause, "yield force"),
  ],
  capacity: "N_y",
  reduction: step(
    "reduction_s",
    "1 / gamma_s",
    "number",
    factorClause,
    "reciprocal of the partial factor of steel",
  ),
});
