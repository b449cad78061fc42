import { edgeLimits, edgeSteps } from "../en1992-4-2018/edge-shear";
import type { CodeDefinition, ProvisionDefinition } from "../../model/definition";
import { SI } from "../../model/unit-system";
import { whether } from "../../model/yes-or-no";
import { ANCHORS_AND_HEADS } from "../../model/tested-by";

/**
 * Mean edge breakout load in shear (Hofmann 2005): V_m = 3.0 d^alpha l_f^beta sqrt(f_cc,200)
 * c_1^1.5 with alpha = 0.1 (l_f/c_1)^0.5, beta = 0.1 (d/c_1)^0.2 (N, mm, MPa; 200 mm cube strength
 * = cylinder / 0.85), times the area ratio and factors that EN 1992-4 took from it. To be checked
 * against a licensed copy.
 */
const meanEdgeShear: ProvisionDefinition = {
  id: "edge-shear-2005/shear",
  title: "Mean edge breakout load in shear",
  action: "shear",
  modes: ["concrete_edge_breakout"],
  confidence: "M",
  searched: "November 2026",
  levels: ["expected"],
  limits: edgeLimits(1),
  steps: edgeSteps({
    coefficient: "if(cracked == 1, crack_factor, 1) * 3",
    strength: "f_c / 0.85",
    angle: "load_angle",
    reinforcement: "1",
  }),
  capacity: "V_Rk_c",
  split: { y: "s_cr_V" },
  notes: ["Clause numbers of the steps are those of EN 1992-4, which uses the same factors."],
};

/** Edge shear, mean loads, 2005. */
export const edgeShear2005: CodeDefinition = {
  id: "edge-shear-2005",
  title: "Edge breakout in shear, mean loads (Hofmann 2005)",
  edition: "200 mm cube strength, N, mm, MPa",
  system: SI,
  covers: "Mean load of single bars and rows loaded toward edge 1.",
  testedBy: ANCHORS_AND_HEADS,
  options: {
    crack_factor: {
      quantity: "number",
      value: 0.7,
      meaning: "factor for cracked concrete",
      clause: "cracking",
    },
    load_angle: {
      quantity: "number",
      value: 0,
      meaning: "angle between the shear and the normal to edge 1, degrees, 0 to 90",
      clause: "direction",
    },
    headed_cast_in: {
      quantity: "number",
      value: 0,
      meaning: whether("a cast-in bar is treated as headed"),
      clause: "basic",
    },
  },
  jumps: [
    "At a spacing of 3 c_1 of a row near a side edge, as in EN 1992-4. At a diameter of 24 mm, the load-bearing length of deep bars increases from 288 to 300 mm.",
  ],
  provisions: [meanEdgeShear],
  gaps: ["A separate check of loads along an edge."],
};
