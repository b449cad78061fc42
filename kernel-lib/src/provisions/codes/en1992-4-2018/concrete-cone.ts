import {
  reported,
  required,
  step,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";
import { concreteTensionFactor } from "./partial-factors";

/** A straight cast-in bar has no head for a cone to form at. */
export const needsHeadOrHole: Limit = required(
  "7.2.1.4",
  "post_installed == 1 || headed_cast_in == 1",
  "a straight cast-in bar has no head; option headed_cast_in treats it as headed",
);

/**
 * The code covers normal-weight concrete (from memory); lightweight concrete is computed as if it
 * were.
 */
export const normalWeight: Limit = reported(
  "1",
  "lightweight == 0",
  "for normal-weight concrete (to be checked against a licensed copy); no factor for lightweight concrete is applied",
);

/**
 * The rectangle that a group projects when each bar reaches `reach` far, cut at the edges.
 * `critical`, a spacing, leaves out the ground between bars farther apart than that.
 */
export function projected(reach: string, critical?: string): string {
  const between = (side: "x" | "y"): string =>
    critical === undefined ? `s_${side}` : `min(s_${side}, ${critical})`;
  return `(min(c_1, ${reach}) + (n_x - 1) * ${between("x")} + min(c_3, ${reach})) * (min(c_2, ${reach}) + (n_y - 1) * ${between("y")} + min(c_4, ${reach}))`;
}

/** Shell spalling factor, 7.2.1.4(7). */
export const spallingFactor: Step = step(
  "psi_re_N",
  "if(dense_reinforcement == 1 && h_ef < 100, min(1, 0.5 + h_ef / 200), 1)",
  "number",
  "7.2.1.4(7)",
  "factor for shell spalling",
);

/** The basic cone strength, true depth: reused by splitting. */
export const basicCone = (symbol: string, depth: string): Step[] => [
  step(
    "k_1",
    "if(post_installed == 1, if(cracked == 1, 7.7, 11), if(cracked == 1, 8.9, 12.7))",
    "number",
    "7.2.1.4(2)",
    "cone coefficient",
  ),
  step(
    symbol,
    `k_1 * sqrt(f_c) * ${depth}^1.5`,
    "force",
    "7.2.1.4(2)",
    "cone strength of one bar remote from edges",
  ),
];

/** Steps of 7.2.1.4 up to N_Rk,c; reused by pry-out. */
export function coneSteps(): Step[] {
  const near = (c: string): string => `${c} < 1.5 * h_ef`;
  return [
    step("s_cr_N_full", "3 * h_ef", "length", "7.2.1.4(3)", "critical spacing of bars"),
    step(
      "near_edges",
      `(${near("c_1")}) + (${near("c_2")}) + (${near("c_3")}) + (${near("c_4")})`,
      "number",
      "7.2.1.4(8)",
      "number of edges closer than 1.5 h_ef",
    ),
    step(
      "c_max",
      `max(${["c_1", "c_2", "c_3", "c_4"].map((c) => `if(${near(c)}, ${c}, 0)`).join(", ")})`,
      "length",
      "7.2.1.4(8)",
      "largest edge distance among those",
    ),
    step(
      "h_ef_prime",
      "if(near_edges >= 3, min(h_ef, h_ef * max(c_max / (1.5 * h_ef), s_x / s_cr_N_full, s_y / s_cr_N_full)), h_ef)",
      "length",
      "7.2.1.4(8)",
      "embedment used, reduced with three or more near edges",
    ),
    step("c_cr_N", "1.5 * h_ef_prime", "length", "7.2.1.4(3)", "characteristic edge distance"),
    step("s_cr_N", "2 * c_cr_N", "length", "7.2.1.4(3)", "characteristic spacing"),
    step(
      "A_c_N_0",
      "s_cr_N^2",
      "area",
      "7.2.1.4(3)",
      "projected area of one bar remote from edges",
    ),
    step(
      "A_c_N",
      `min(${projected("c_cr_N")}, n_x * n_y * A_c_N_0)`,
      "area",
      "7.2.1.4(3)",
      "projected area of the group",
    ),
    ...basicCone("N_Rk_c_0", "h_ef_prime"),
    step("c_least", "min(c_1, c_2, c_3, c_4)", "length", "7.2.1.4(4)", "minimum edge distance"),
    step(
      "psi_s_N",
      "if(c_least >= c_cr_N, 1, 0.7 + 0.3 * c_least / c_cr_N)",
      "number",
      "7.2.1.4(4)",
      "edge factor",
    ),
    spallingFactor,
    step(
      "psi_ec_N",
      "1 / (1 + 2 * e_x / s_cr_N) * (1 / (1 + 2 * e_y / s_cr_N))",
      "number",
      "7.2.1.4(6)",
      "eccentricity factor, product of both directions",
    ),
    step(
      "psi_M_N",
      "if(compression_lever_arm > 0 && c_least >= c_cr_N, max(1, 2 - compression_lever_arm / (1.5 * h_ef)), 1)",
      "number",
      "7.2.1.4(9)",
      "factor for compression near the cone",
    ),
    step(
      "N_Rk_c",
      "N_Rk_c_0 * (A_c_N / A_c_N_0) * psi_s_N * psi_re_N * psi_ec_N * psi_M_N",
      "force",
      "7.2.1.4(1)",
      "characteristic cone strength",
    ),
  ];
}

/**
 * Concrete cone in tension, 7.2.1.4: N_Rk,c = N0_Rk,c (A_c,N/A0_c,N) psi_s,N psi_re,N psi_ec,N
 * psi_M,N with N0_Rk,c = k_1 sqrt(f_ck) h_ef^1.5, k_1 = 7.7 / 11.0 post-installed in cracked /
 * uncracked concrete, 8.9 / 12.7 headed (N, mm, MPa; cylinder strength). Where three or more edges
 * are nearer than c_cr,N, h_ef is reduced throughout.
 */
export const concreteCone: ProvisionDefinition = {
  id: "en1992-4-2018/7.2.1.4",
  title: "Concrete cone failure in tension",
  action: "tension",
  modes: ["concrete_breakout"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [needsHeadOrHole, normalWeight],
  steps: coneSteps(),
  capacity: "N_Rk_c",
  reduction: concreteTensionFactor,
  split: { x: "s_cr_N_full", y: "s_cr_N_full" },
};
