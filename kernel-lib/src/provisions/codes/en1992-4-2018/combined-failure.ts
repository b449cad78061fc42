import { required, step, type ProvisionDefinition, type Step } from "../../model/definition";
import { normalWeight, projected, spallingFactor } from "./concrete-cone";
import { concreteTensionFactor } from "./partial-factors";
import { BONDED_ANCHORS } from "../../model/tested-by";

/** Factor for sustained tension, 7.2.1.6(2). */
export const sustainedFactor: Step = step(
  "psi_sus",
  "if(sustained_share <= psi_sus_0, 1, psi_sus_0 + 1 - sustained_share)",
  "number",
  "7.2.1.6(2)",
  "factor for sustained tension",
);

/**
 * Steps of 7.2.1.6 up to N_Rk,p. `sustained` false leaves psi_sus at 1, as pry-out does; `own`
 * false, in another clause, leaves out the spalling factor's step that stands there already; of
 * bars that are apart in bond but not for that clause it leaves out the ground between them, and
 * does not count them as side by side.
 */
export function combinedSteps(sustained = true, own = true): Step[] {
  // Where the clause's own spacing has not taken the group apart, only directions within it count
  // as side by side.
  const [bars, spacing] = own
    ? ["n_x * n_y", "if(n_x > 1 && n_y > 1, (s_x + s_y) / 2, max(s_x, s_y))"]
    : [
        "if(s_x > s_cr_Np, 1, n_x) * if(s_y > s_cr_Np, 1, n_y)",
        "if(n_x > 1 && n_y > 1 && s_x <= s_cr_Np && s_y <= s_cr_Np, (s_x + s_y) / 2, max(if(s_x > s_cr_Np, 0, s_x), if(s_y > s_cr_Np, 0, s_y)))",
      ];
  return [
    sustained ? sustainedFactor : { ...sustainedFactor, formula: "1" },
    step(
      "s_cr_Np",
      "min(7.3 * d_a * sqrt(psi_sus * tau_uncr), 3 * h_ef)",
      "length",
      "7.2.1.6(3)",
      "characteristic spacing",
    ),
    step("c_cr_Np", "s_cr_Np / 2", "length", "7.2.1.6(3)", "characteristic edge distance"),
    step(
      "A_p_N_0",
      "s_cr_Np^2",
      "area",
      "7.2.1.6(3)",
      "projected area of one bar remote from edges",
    ),
    step(
      "A_p_N",
      `min(${projected("c_cr_Np", own ? undefined : "s_cr_Np")}, n_x * n_y * A_p_N_0)`,
      "area",
      "7.2.1.6(3)",
      "projected area of the group",
    ),
    step(
      "N_Rk_p_0",
      "psi_sus * tau_k * pi * d_a * h_ef",
      "force",
      "7.2.1.6(2)",
      "bond strength of one bar remote from edges",
    ),
    step(
      "k_3",
      "if(cracked == 1, 7.7, 11)",
      "number",
      "7.2.1.6(4)",
      "coefficient of the bond stress at which the cone governs",
    ),
    step(
      "tau_Rk_c",
      "k_3 / (pi * d_a) * sqrt(h_ef * f_c)",
      "stress",
      "7.2.1.6(4)",
      "bond stress at which the cone governs",
    ),
    step(
      "n_bars",
      bars,
      "number",
      "7.2.1.6(4)",
      own ? "bars of the group" : "bars acting together",
    ),
    step(
      "psi_g_Np_0",
      "max(1, sqrt(n_bars) - (sqrt(n_bars) - 1) * (tau_k / tau_Rk_c)^1.5)",
      "number",
      "7.2.1.6(4)",
      "group factor of bars acting together",
    ),
    step("s_mean", spacing, "length", "7.2.1.6(4)", "mean spacing of the group"),
    step(
      "psi_g_Np",
      "max(1, psi_g_Np_0 - sqrt(min(1, s_mean / s_cr_Np)) * (psi_g_Np_0 - 1))",
      "number",
      "7.2.1.6(4)",
      "group factor",
    ),
    step("c_least_p", "min(c_1, c_2, c_3, c_4)", "length", "7.2.1.6(5)", "minimum edge distance"),
    step(
      "psi_s_Np",
      "if(c_least_p >= c_cr_Np, 1, 0.7 + 0.3 * c_least_p / c_cr_Np)",
      "number",
      "7.2.1.6(5)",
      "edge factor",
    ),
    ...(own ? [spallingFactor] : []),
    step(
      "psi_ec_Np",
      "1 / (1 + 2 * e_x / s_cr_Np) * (1 / (1 + 2 * e_y / s_cr_Np))",
      "number",
      "7.2.1.6(7)",
      "eccentricity factor, product of both directions",
    ),
    step(
      "N_Rk_p",
      "N_Rk_p_0 * (A_p_N / A_p_N_0) * psi_g_Np * psi_s_Np * psi_re_N * psi_ec_Np",
      "force",
      "7.2.1.6(1)",
      "characteristic combined pull-out and cone strength",
    ),
  ];
}

/**
 * Combined pull-out and concrete cone of bonded bars, 7.2.1.6: N_Rk,p = N0_Rk,p (A_p,N/A0_p,N)
 * psi_g,Np psi_s,Np psi_re,N psi_ec,Np with N0_Rk,p = psi_sus tau_Rk pi d h_ef and s_cr,Np = 7.3 d
 * sqrt(psi_sus tau_Rk,ucr) <= 3 h_ef (N, mm, MPa). The bond stresses are the product's, proven with
 * steel bars. To be checked against a licensed copy: the mean of both spacings in psi_g,Np where
 * they differ.
 */
export const combinedFailure: ProvisionDefinition = {
  id: "en1992-4-2018/7.2.1.6",
  title: "Combined pull-out and concrete cone failure of bonded bars",
  action: "tension",
  modes: ["bond", "combined_cone_bond"],
  testedBy: BONDED_ANCHORS,
  confidence: "M",
  toCheck:
    "the mean of the two spacings in psi_g,Np of a group with unequal spacings; the rest is well known",
  searched: "November 2026",
  levels: ["nominal", "design"],
  limits: [
    required(
      "7.2.1.6",
      "post_installed == 1",
      "for bars bonded into drilled holes; cast-in bars follow the anchorage-length rules",
    ),
    normalWeight,
  ],
  steps: combinedSteps(),
  capacity: "N_Rk_p",
  reduction: concreteTensionFactor,
  split: { x: "s_cr_Np", y: "s_cr_Np" },
  notes: [
    "For unequal spacings in the two directions, their mean is used in the group factor.",
    "The clause uses tau_Rk,ucr for C20/25 in s_cr,Np; here the uncracked bond stress of the row is used.",
  ],
};
