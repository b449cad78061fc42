import {
  required,
  reported,
  step,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";
import { turnedToEdge } from "../../model/turn-plan";
import {
  limitedConcreteStrength,
  lightweightConcreteFailure,
  needsHeadOrHole,
} from "./breakout-tension";
import type { Form } from "./form";
import { concreteShearReduction } from "./reduction-factors";
import { whether } from "../../model/yes-or-no";

/** First edge coefficient; larger for cast-in bars welded to a plate, 17.7.2.2.2. */
const welded = (form: Form): string =>
  `if(welded_to_plate == 1 && post_installed == 0, ${form.edgeWelded}, ${form.edgeFirst})`;

const SEVERAL_ROWS = "n_x > 1";
const SEVERAL_ROWS_TO_CHECK =
  "several rows by R17.7.2.1, used with option rows_share_shear only; the rest is well known";

/**
 * The reading of several rows in R17.7.2.1, from memory: with the rows at least c_a1 apart, the
 * lesser of the front row taking its share and the rear row taking all; closer than that the front
 * row takes all; bars welded to a plate: the rear row alone.
 */
function rearRow(parallel: boolean, clause: string): Step[] {
  const twice = parallel ? "2 * " : "";
  const side = "0.7 + 0.3 * c_a2 / (1.5 * c_a1_rear)";
  const area =
    "min((min(c_2, 1.5 * c_a1_rear) + (n_y - 1) * s_y + min(c_4, 1.5 * c_a1_rear)) * min(h_a, 1.5 * c_a1_rear), n_y * 4.5 * c_a1_rear^2)";
  const lines: Step[] = [
    step(
      "c_rear",
      "c_1 + (n_x - 1) * s_x",
      "length",
      "R17.7.2.1",
      "distance from the rear row to the edge",
    ),
    step(
      "c_a1_rear",
      "if(c_2 < 1.5 * c_rear && c_4 < 1.5 * c_rear && h_a < 1.5 * c_rear, min(c_rear, max(c_2 / 1.5, c_4 / 1.5, h_a / 1.5, s_y / 3)), c_rear)",
      "length",
      "17.7.2.1.2",
      "the same, reduced in a narrow thin member",
    ),
    step("A_Vc_rear", area, "area", "17.7.2.1.1", "projected area of the rear row"),
    step(
      "psi_ed_V_rear",
      parallel ? "1" : `if(c_a2 >= 1.5 * c_a1_rear, 1, ${side})`,
      "number",
      parallel ? clause : "17.7.2.4.1",
      "edge factor of the rear row",
    ),
    step(
      "V_rear",
      `${twice}A_Vc_rear / (4.5 * c_a1_rear^2) * (1 / (1 + e_y / (1.5 * c_a1_rear))) * psi_ed_V_rear * psi_c_V * max(1, sqrt(1.5 * c_a1_rear / h_a)) * V_b * (c_a1_rear / c_a1)^1.5`,
      "force",
      "R17.7.2.1",
      "strength with the rear row resisting the whole shear; V_b is proportional to the distance to the power 1.5",
    ),
    step(
      "V_rows",
      "if(n_x == 1, V_row, if(welded_to_plate == 1 && post_installed == 0, V_rear, if(s_x < c_1, V_row, min(n_x * V_row, V_rear))))",
      "force",
      "R17.7.2.1",
      "strength with several rows by R17.7.2.1",
    ),
  ];
  return lines.map((line) => ({ ...line, concerns: SEVERAL_ROWS }));
}

function edgeSteps(form: Form, parallel: boolean): Step[] {
  const clause = parallel ? "17.7.2.1(c)" : "17.7.2.1";
  const twice = parallel ? "2 * " : "";
  return [
    limitedConcreteStrength(form),
    lightweightConcreteFailure,
    step("s_cr_V", "3 * c_1", "length", "17.5.1.3.1", "critical spacing of bars along the edge"),
    step(
      "thin_and_narrow",
      "c_2 < 1.5 * c_1 && c_4 < 1.5 * c_1 && h_a < 1.5 * c_1",
      "number",
      "17.7.2.1.2",
      whether("both side edge distances and the thickness are less than 1.5 c_a1"),
    ),
    step(
      "c_a1",
      "if(thin_and_narrow, min(c_1, max(c_2 / 1.5, c_4 / 1.5, h_a / 1.5, s_y / 3)), c_1)",
      "length",
      "17.7.2.1.2",
      "edge distance used, reduced in a narrow thin member",
    ),
    step(
      "A_Vco",
      "4.5 * c_a1^2",
      "area",
      "17.7.2.1.3",
      "projected area of one bar in a deep wide member",
    ),
    step(
      "A_Vc_rect",
      "(min(c_2, 1.5 * c_a1) + (n_y - 1) * s_y + min(c_4, 1.5 * c_a1)) * min(h_a, 1.5 * c_a1)",
      "area",
      "17.7.2.1.1",
      "projected rectangle on the edge face",
    ),
    step("A_Vc", "min(A_Vc_rect, n_y * A_Vco)", "area", "17.7.2.1.1", "projected area of the row"),
    step("l_e", "min(h_ef, 8 * d_a)", "length", "17.7.2.2.1", "load-bearing length"),
    step(
      "V_b_a",
      `${welded(form)} * (l_e / d_a)^0.2 * sqrt(d_a) * lambda_a * sqrt(f_c_used) * c_a1^1.5`,
      "force",
      "17.7.2.2.1(a)",
      "basic edge strength, first form",
    ),
    step(
      "V_b_b",
      `${form.edgeSecond} * lambda_a * sqrt(f_c_used) * c_a1^1.5`,
      "force",
      "17.7.2.2.1(b)",
      "basic edge strength, second form",
    ),
    step(
      "V_b",
      "min(V_b_a, V_b_b)",
      "force",
      "17.7.2.2.1",
      "basic edge strength of one bar in cracked concrete",
    ),
    step("psi_ec_V", "1 / (1 + e_y / (1.5 * c_a1))", "number", "17.7.2.3.1", "eccentricity factor"),
    step(
      "c_a2",
      "min(c_2, c_4)",
      "length",
      "17.7.2.4.1",
      "smaller edge distance perpendicular to the load",
    ),
    step(
      "psi_ed_V",
      parallel ? "1" : "if(c_a2 >= 1.5 * c_a1, 1, 0.7 + 0.3 * c_a2 / (1.5 * c_a1))",
      "number",
      parallel ? "17.7.2.1(c)" : "17.7.2.4.1",
      "edge factor",
    ),
    step(
      "psi_c_V",
      "if(cracked == 0, 1.4, if(edge_reinforcement == 2, 1.4, if(edge_reinforcement == 1, 1.2, 1)))",
      "number",
      "17.7.2.5.1",
      "factor for cracking and edge reinforcement",
    ),
    step(
      "psi_h_V",
      "max(1, sqrt(1.5 * c_a1 / h_a))",
      "number",
      "17.7.2.6.1",
      "factor for a thin member",
    ),
    step(
      "V_row",
      `${twice}A_Vc / A_Vco * psi_ec_V * psi_ed_V * psi_c_V * psi_h_V * V_b`,
      "force",
      clause,
      "strength with the row nearest the edge resisting the shear",
    ),
    ...rearRow(parallel, clause),
    step(
      "V_cbg",
      "if(rows_share_shear == 1, V_rows, V_row)",
      "force",
      clause,
      "nominal edge breakout strength",
    ),
  ];
}

const limits = (form: Form, edge: number): ProvisionDefinition["limits"] => [
  required(
    "17.7.2",
    "c_1 < 1e6",
    `edge ${edge} is remote, so concrete breakout toward it does not apply`,
  ),
  needsHeadOrHole,
  reported("17.3.2", `d_a <= ${form.largestDiameter}`, "for diameters of at most 4 in. (100 mm)"),
];

/**
 * Concrete breakout in shear towards edge 1, 17.7.2: V_cbg = (A_Vc/A_Vco) psi_ec,V psi_ed,V psi_c,V
 * psi_h,V V_b with V_b = min{7 (l_e/d)^0.2 sqrt(d), 9} lambda_a sqrt(f'c) c_a1^1.5.
 *
 * The row next to the edge carries the shear. For several rows the hand calculation prints the
 * reading of R17.7.2.1 beside it, which option rows_share_shear takes.
 */
export const breakoutInShear = (form: Form): ProvisionDefinition => ({
  id: "aci318-19/17.7.2",
  title: "Concrete breakout strength in shear, load toward edge 1",
  action: "shear",
  modes: ["concrete_edge_breakout"],
  confidence: "M",
  toCheck: SEVERAL_ROWS_TO_CHECK,
  searched: "November 2026",
  levels: ["nominal", "design"],
  limits: limits(form, 1),
  steps: edgeSteps(form, false),
  capacity: "V_cbg",
  reduction: concreteShearReduction,
  split: { y: "s_cr_V" },
});

/**
 * Breakout of edge 2 or 4, to which the load runs parallel, 17.7.2.1(c): twice the strength for a
 * load towards that edge, with psi_ed,V = 1. Matters for bars near a corner; the least of all edges
 * governs.
 */
export const breakoutParallelToEdge = (form: Form, edge: 2 | 4): ProvisionDefinition => ({
  id: `aci318-19/17.7.2.1(c)-edge${edge}`,
  title: `Concrete breakout strength in shear, load parallel to edge ${edge}`,
  action: "shear",
  modes: ["concrete_edge_breakout"],
  confidence: "M",
  toCheck: SEVERAL_ROWS_TO_CHECK,
  searched: "November 2026",
  levels: ["nominal", "design"],
  ...turnedToEdge(edge, { limits: limits(form, edge), steps: edgeSteps(form, true) }),
  capacity: "V_cbg",
  reduction: concreteShearReduction,
  split: { x: "s_cr_V" },
});
