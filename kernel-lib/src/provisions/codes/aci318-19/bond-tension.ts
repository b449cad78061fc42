import {
  reported,
  required,
  step,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";
import { adhesiveEmbedmentLimits, CRITICAL_EDGE } from "./breakout-tension";
import type { Form } from "./form";
import { concreteTensionReduction } from "./reduction-factors";
import { BONDED_ANCHORS } from "../../model/tested-by";

/**
 * No uncracked bond stress is stated. It enters through c_Na alone, and does not matter to a single
 * bar whose edges are all farther than c_Na. The most it can be is taken from the largest ratio to
 * the cracked one in the edition's own table (indoor, 1000/300 psi).
 */
const UNSTATED = "tau_uncr_stated == 0 && bond_table == 0";

/**
 * Steps of 17.6.5 up to N_ag; reused by pryout, whose groups may hold bars that are apart in bond:
 * `apart` then leaves out the ground between areas that do not meet.
 */
export function bondSteps(form: Form, apart = false): Step[] {
  const between = (side: "x" | "y"): string => (apart ? `min(s_${side}, s_cr_Na)` : `s_${side}`);
  const [outCracked, outUncracked, inCracked, inUncracked] = form.bondTable;
  const sustained = "if(sustained == 1, 0.4, 1)";
  return [
    step(
      "tau_cr_table",
      `if(bond_table == 2, ${inCracked}, ${outCracked}) * ${sustained} * if(seismic == 1, 0.8, 1)`,
      "stress",
      "17.6.5.2.5",
      "table bond stress, cracked",
    ),
    step(
      "tau_uncr_table",
      `if(bond_table == 2, ${inUncracked}, ${outUncracked}) * ${sustained} * if(seismic == 1, 0.4, 1)`,
      "stress",
      "17.6.5.2.5",
      "table bond stress, uncracked",
    ),
    step(
      "tau_used",
      "if(bond_table == 0, tau_k, if(cracked == 1, tau_cr_table, tau_uncr_table))",
      "stress",
      "17.6.5.2.1",
      "characteristic bond stress used",
    ),
    {
      ...step(
        "tau_uncr_most",
        `tau_k * ${inUncracked} / ${inCracked}`,
        "stress",
        "17.6.5.1.2",
        "largest possible uncracked bond stress where none is stated",
      ),
      concerns: UNSTATED,
    },
    {
      ...step(
        "bond_alone",
        `if(${UNSTATED} && cracked == 1 && n_x * n_y == 1 && e_x == 0 && e_y == 0, min(c_1, c_2, c_3, c_4) >= 10 * d_a * sqrt(tau_uncr_most / ${form.bondReference}), 0)`,
        "number",
        "17.6.5.1.2",
        "1 for a single bar with every edge farther than c_Na even at that stress: all factors are then 1 and the stress has no effect",
      ),
      concerns: UNSTATED,
    },
    step(
      "tau_uncr_used",
      "if(bond_table == 0, if(bond_alone == 1, tau_uncr_most, tau_uncr), tau_uncr_table)",
      "stress",
      "17.6.5.1.2",
      "uncracked bond stress for the critical distance",
    ),
    step(
      "lambda_a_bond",
      "if(lightweight == 1, 0.6 * lambda, 1)",
      "number",
      "17.2.4.1",
      "lightweight factor, bond failure",
    ),
    step(
      "c_Na",
      `10 * d_a * sqrt(tau_uncr_used / ${form.bondReference})`,
      "length",
      "17.6.5.1.2",
      "projected distance from one bar to the side of its influence area",
    ),
    step("s_cr_Na", "2 * c_Na", "length", "17.5.1.3.1", "critical spacing of bars in bond"),
    step(
      "A_Nao",
      "(2 * c_Na)^2",
      "area",
      "17.6.5.1.2",
      "projected influence area of one bar remote from edges",
    ),
    step(
      "A_Na_rect",
      `(min(c_1, c_Na) + (n_x - 1) * ${between("x")} + min(c_3, c_Na)) * (min(c_2, c_Na) + (n_y - 1) * ${between("y")} + min(c_4, c_Na))`,
      "area",
      "17.6.5.1.1",
      "projected rectangle of the group, limited by the edges",
    ),
    step(
      "A_Na",
      "min(A_Na_rect, n_x * n_y * A_Nao)",
      "area",
      "17.6.5.1.1",
      "projected influence area of the group",
    ),
    step(
      "N_ba",
      "lambda_a_bond * tau_used * pi * d_a * h_ef",
      "force",
      "17.6.5.2.1",
      "basic bond strength of one bar",
    ),
    step(
      "psi_ec_Na",
      "1 / (1 + e_x / c_Na) * (1 / (1 + e_y / c_Na))",
      "number",
      "17.6.5.3.1",
      "eccentricity factor, product of both directions",
    ),
    step(
      "c_a_min_bond",
      "min(c_1, c_2, c_3, c_4)",
      "length",
      "17.6.5.4.1",
      "minimum edge distance",
    ),
    step(
      "psi_ed_Na",
      "if(c_a_min_bond >= c_Na, 1, 0.7 + 0.3 * c_a_min_bond / c_Na)",
      "number",
      "17.6.5.4.1",
      "edge factor",
    ),
    step(
      "c_ac_bond",
      CRITICAL_EDGE,
      "length",
      "17.9.5",
      "critical edge distance of adhesive bars; 2 h_ef without product tests",
    ),
    step(
      "psi_cp_Na",
      "if(cracked == 1 || supplementary_reinforcement == 1 || c_a_min_bond >= c_ac_bond, 1, min(1, max(c_a_min_bond, c_Na) / c_ac_bond))",
      "number",
      "17.6.5.5.1",
      "splitting factor",
    ),
    step(
      "N_ag",
      "A_Na / A_Nao * psi_ec_Na * psi_ed_Na * psi_cp_Na * N_ba",
      "force",
      "17.6.5.1",
      "nominal bond strength",
    ),
  ];
}

/**
 * Bond strength of adhesive bars in tension, 17.6.5: N_ag = (A_Na/A_Nao) psi_ec,Na psi_ed,Na
 * psi_cp,Na N_ba with N_ba = lambda_a tau pi d_a h_ef and c_Na = 10 d_a sqrt(tau_uncr/1100 psi).
 *
 * tau is the adhesive's qualified characteristic bond stress for the row's cracked state, or the
 * table value when asked for. Both rest on tests with steel bars; for FRP they are unproven. The
 * design level covers short-term tension; sustained tension is limited to 0.55 phi N_ba per bar,
 * see the provision of 17.5.2.2.
 */
export const bondInTension = (form: Form): ProvisionDefinition => ({
  id: "aci318-19/17.6.5",
  title: "Bond strength of adhesive bars in tension",
  action: "tension",
  modes: ["bond", "combined_cone_bond"],
  testedBy: BONDED_ANCHORS,
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [
    required(
      "17.6.5",
      "post_installed == 1",
      "for bars bonded into drilled holes; cast-in bars follow the development-length rules",
    ),
    ...adhesiveEmbedmentLimits,
    reported(
      "17.2.2",
      `f_c >= ${form.leastStrengthAdhesive}`,
      "concrete strength of at least 2,500 psi (17 MPa) at installation of the adhesive bar; checked with the strength at the time of the test (to be checked against a licensed copy)",
    ),
  ],
  steps: bondSteps(form),
  capacity: "N_ag",
  reduction: concreteTensionReduction,
  split: { x: "s_cr_Na", y: "s_cr_Na" },
  notes: [
    "Characteristic bond stresses and the table values are based on tests of steel bars.",
    "The strength reduction factor for bond is that of concrete breakout, from the same table (to be checked against a licensed copy).",
  ],
});
