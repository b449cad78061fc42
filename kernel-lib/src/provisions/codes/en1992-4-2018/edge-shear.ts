import {
  reported,
  required,
  step,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";
import { turnedToEdge } from "../../model/turn-plan";
import { needsHeadOrHole, normalWeight } from "./concrete-cone";
import { concreteShearFactor } from "./partial-factors";
import { whether } from "../../model/yes-or-no";

/** What differs between the code's characteristic edge strength and the mean model behind it. */
export interface EdgeForm {
  /** Formula of the leading coefficient. */
  readonly coefficient: string;
  /** Formula of the concrete strength it belongs to. */
  readonly strength: string;
  /** Formula of the angle between the load and the edge's normal, in degrees. */
  readonly angle: string;
  /** Formula of the factor for edge reinforcement. */
  readonly reinforcement: string;
  /**
   * Formula of the rows that share the load; 1 where left out: the row next to the edge carries it.
   */
  readonly rows?: string;
}

const CLAUSE = "7.2.2.5";

/** Steps of 7.2.2.5 up to V_Rk,c; reused by the mean model. */
export function edgeSteps(form: EdgeForm): Step[] {
  return [
    step(
      "thin_and_narrow",
      "c_2 < 1.5 * c_1 && c_4 < 1.5 * c_1 && h_a < 1.5 * c_1",
      "number",
      `${CLAUSE}(14)`,
      whether("both side edge distances and the thickness are less than 1.5 c_1"),
    ),
    step(
      "c_1_prime",
      "if(thin_and_narrow, min(c_1, max(c_2 / 1.5, c_4 / 1.5, h_a / 1.5, s_y / 3)), c_1)",
      "length",
      `${CLAUSE}(14)`,
      "edge distance used, reduced in a narrow thin member",
    ),
    step("s_cr_V", "3 * c_1", "length", CLAUSE, "critical spacing of bars along the edge"),
    step(
      "l_f",
      "if(d_a <= 24, min(h_ef, 12 * d_a), min(h_ef, max(8 * d_a, 300)))",
      "length",
      `${CLAUSE}(6)`,
      "load-bearing length",
    ),
    step(
      "alpha",
      "0.1 * sqrt(l_f / c_1_prime)",
      "number",
      `${CLAUSE}(6)`,
      "exponent of the diameter",
    ),
    step("beta", "0.1 * (d_a / c_1_prime)^0.2", "number", `${CLAUSE}(6)`, "exponent of the length"),
    step("f_used", form.strength, "stress", `${CLAUSE}(6)`, "concrete strength used"),
    step("k_9", form.coefficient, "number", `${CLAUSE}(6)`, "edge coefficient"),
    step(
      "V_0",
      "k_9 * d_a^alpha * l_f^beta * sqrt(f_used) * c_1_prime^1.5",
      "force",
      `${CLAUSE}(6)`,
      "edge strength of one bar loaded perpendicular to the edge",
    ),
    step(
      "A_c_V_0",
      "4.5 * c_1_prime^2",
      "area",
      `${CLAUSE}(7)`,
      "projected area of one bar in a deep wide member",
    ),
    step(
      "A_c_V",
      "min((min(c_2, 1.5 * c_1_prime) + (n_y - 1) * s_y + min(c_4, 1.5 * c_1_prime)) * min(h_a, 1.5 * c_1_prime), n_y * A_c_V_0)",
      "area",
      `${CLAUSE}(7)`,
      "projected area of the row",
    ),
    step(
      "c_side",
      "min(c_2, c_4)",
      "length",
      `${CLAUSE}(8)`,
      "smaller edge distance perpendicular to the load",
    ),
    step(
      "psi_s_V",
      "if(c_side >= 1.5 * c_1_prime, 1, 0.7 + 0.3 * c_side / (1.5 * c_1_prime))",
      "number",
      `${CLAUSE}(8)`,
      "edge factor",
    ),
    step(
      "psi_h_V",
      "max(1, sqrt(1.5 * c_1_prime / h_a))",
      "number",
      `${CLAUSE}(9)`,
      "factor for a thin member",
    ),
    step(
      "psi_ec_V",
      "1 / (1 + 2 * e_y / (3 * c_1_prime))",
      "number",
      `${CLAUSE}(10)`,
      "eccentricity factor",
    ),
    step(
      "angle",
      `${form.angle} * pi / 180`,
      "number",
      `${CLAUSE}(11)`,
      "angle between the load and the normal to the edge, radians",
    ),
    step(
      "psi_alpha_V",
      "max(1, sqrt(1 / (cos(angle) * cos(angle) + 0.25 * sin(angle) * sin(angle))))",
      "number",
      `${CLAUSE}(11)`,
      "factor for the direction of the load",
    ),
    step(
      "psi_re_V",
      form.reinforcement,
      "number",
      `${CLAUSE}(12)`,
      "factor for edge reinforcement",
    ),
    ...(form.rows === undefined
      ? []
      : [
          step(
            "n_rows",
            form.rows,
            "number",
            "6.2.2.2",
            "rows that share the load: all rows for a load along the edge",
          ),
        ]),
    step(
      "V_Rk_c",
      `${form.rows === undefined ? "" : "n_rows * "}V_0 * (A_c_V / A_c_V_0) * psi_s_V * psi_h_V * psi_ec_V * psi_alpha_V * psi_re_V`,
      "force",
      `${CLAUSE}(5)`,
      "edge strength",
    ),
  ];
}

/** Limits of the edge clause, for the edge of that number. */
export const edgeLimits = (edge: number): Limit[] => [
  required(CLAUSE, "c_1 < 1e6", `edge ${edge} is remote, so edge failure toward it does not apply`),
  required(
    `${CLAUSE}(2)`,
    "c_1 <= max(10 * h_ef, 60 * d_a)",
    `edge ${edge} is farther than 10 h_ef and 60 d, so edge failure need not be checked`,
  ),
  needsHeadOrHole,
  reported(CLAUSE, "d_a <= 60", "for diameters of at most 60 mm"),
  normalWeight,
];

const CODE_FORM: Omit<EdgeForm, "angle"> = {
  coefficient: "if(cracked == 1, 1.7, 2.4)",
  strength: "f_c",
  reinforcement: "if(cracked == 1 && edge_reinforcement == 1, 1.4, 1)",
};

/**
 * The code's form for an edge at that angle to the load. 6.2.2.2, from memory: a load along an edge
 * is shared by all fasteners.
 */
const atAngle = (angle: string): EdgeForm => ({
  ...CODE_FORM,
  angle,
  rows: `if(front_row_along_edge == 0 && ${angle} >= 90, n_x, 1)`,
});
const TO_CHECK = "whether all rows share a load along the edge (6.2.2.2); the rest is well known";

/**
 * Concrete edge failure towards edge 1, 7.2.2.5: V_Rk,c = k_9 d^alpha l_f^beta sqrt(f_ck) c_1^1.5
 * (A_c,V/A0_c,V) psi_s,V psi_h,V psi_ec,V psi_alpha,V psi_re,V with k_9 = 1.7 cracked, 2.4
 * uncracked, alpha = 0.1 (l_f/c_1)^0.5, beta = 0.1 (d/c_1)^0.2 (N, mm, MPa). The row next to the
 * edge carries a load towards it; a load along the edge is shared by all rows (6.2.2.2) unless
 * option front_row_along_edge says otherwise.
 */
export const edgeFailure: ProvisionDefinition = {
  id: "en1992-4-2018/7.2.2.5",
  title: "Concrete edge failure in shear, load toward edge 1",
  action: "shear",
  modes: ["concrete_edge_breakout"],
  confidence: "M",
  toCheck: TO_CHECK,
  levels: ["nominal", "design"],
  limits: edgeLimits(1),
  steps: edgeSteps(atAngle("load_angle")),
  capacity: "V_Rk_c",
  reduction: concreteShearFactor,
  split: { y: "s_cr_V" },
};

/**
 * Concrete edge failure of edge 2 or 4, to which a load towards edge 1 runs parallel, 7.2.2.5 with
 * the angle to that edge.
 */
export const sideEdgeFailure = (edge: 2 | 4): ProvisionDefinition => ({
  ...edgeFailure,
  id: `en1992-4-2018/7.2.2.5-edge${edge}`,
  title: `Concrete edge failure in shear, load along edge ${edge}`,
  ...turnedToEdge(edge, {
    limits: edgeLimits(edge),
    steps: edgeSteps(atAngle("(90 - load_angle)")),
  }),
  split: { x: "s_cr_V" },
});
