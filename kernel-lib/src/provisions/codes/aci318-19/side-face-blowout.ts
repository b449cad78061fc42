import { required, step, type ProvisionDefinition, type Step } from "../../model/definition";
import { limitedConcreteStrength, lightweightConcreteFailure } from "./breakout-tension";
import type { Form } from "./form";
import { concreteTensionReduction } from "./reduction-factors";
import { whether } from "../../model/yes-or-no";
import { CAST_IN_HEADS } from "../../model/tested-by";

/**
 * Which bars are next to the nearest edge, and how near; under the clause's numbers unless another
 * stands for all.
 */
export const sideFacePlan = (clause?: string): Step[] => [
  step(
    "c_a1",
    "min(c_1, c_2, c_3, c_4)",
    "length",
    clause ?? "17.6.4.1",
    "distance to the nearest edge",
  ),
  step(
    "along_y",
    "min(c_1, c_3) <= min(c_2, c_4)",
    "number",
    clause ?? "17.6.4.1",
    whether("the nearest edge is 1 or 3, parallel to y"),
  ),
  step(
    "c_a2",
    "if(along_y, min(c_2, c_4), min(c_1, c_3))",
    "length",
    clause ?? "17.6.4.1.1",
    "smaller edge distance perpendicular to that",
  ),
  step(
    "bars_along",
    "if(along_y, n_y, n_x)",
    "number",
    clause ?? "17.6.4.2",
    "bars along the nearest edge",
  ),
  step("bars_across", "if(along_y, n_x, n_y)", "number", clause ?? "17.6.4.2", "rows of bars"),
  step(
    "s_outer",
    "if(along_y, (n_y - 1) * s_y, (n_x - 1) * s_x)",
    "length",
    clause ?? "17.6.4.2",
    "distance between the outer bars along the edge",
  ),
];

/** Factors for a corner and for a row of heads. */
export const sideFaceFactors = (clause?: string): Step[] => [
  step(
    "psi_corner",
    "if(bars_along == 1 && c_a2 < 3 * c_a1, (1 + c_a2 / c_a1) / 4, 1)",
    "number",
    clause ?? "17.6.4.1.1",
    "corner factor of a single bar",
  ),
  step(
    "psi_row",
    "min(bars_along, 1 + s_outer / (6 * c_a1))",
    "number",
    clause ?? "17.6.4.2",
    "factor for a row of bars",
  ),
];

/**
 * Side-face blowout of deep heads near an edge, 17.6.4: N_sb = 160 c_a1 sqrt(A_brg) lambda_a
 * sqrt(f'c) (metric form 13) where h_ef > 2.5 c_a1; times (1 + c_a2/c_a1)/4 for a single bar with
 * c_a2 < 3 c_a1; times 1 + s/(6 c_a1), at most the number of bars, for a row along the edge with s
 * between its outer bars.
 *
 * c_a1 is the distance to the nearest edge, c_a2 the lesser one at right angles. Needs option
 * `A_brg`; one row of bars only, since the clause speaks of the bars next to the edge.
 */
export const sideFaceBlowout = (form: Form): ProvisionDefinition => ({
  id: "aci318-19/17.6.4",
  title: "Side-face blowout of deep cast-in heads in tension",
  action: "tension",
  modes: ["concrete_breakout"],
  testedBy: CAST_IN_HEADS,
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [
    required(
      "17.6.4",
      "post_installed == 0 && A_brg > 0",
      "for cast-in heads; state the net bearing area of the head in option A_brg",
    ),
    required(
      "17.6.4.1",
      "h_ef > 2.5 * c_a1",
      "for heads embedded deeper than 2.5 times their edge distance",
    ),
    required("17.6.4.2", "bars_across == 1", "for bars in one row along the nearest edge"),
  ],
  steps: [
    limitedConcreteStrength(form),
    lightweightConcreteFailure,
    ...sideFacePlan(),
    step(
      "N_sb",
      `${form.sideFace} * c_a1 * sqrt(A_brg) * lambda_a * sqrt(f_c_used)`,
      "force",
      "17.6.4.1",
      "side-face blowout strength of one head remote from corners",
    ),
    ...sideFaceFactors(),
    step(
      "N_sbg",
      "psi_row * psi_corner * N_sb",
      "force",
      "17.6.4",
      "nominal side-face blowout strength",
    ),
  ],
  capacity: "N_sbg",
  reduction: concreteTensionReduction,
  notes: [
    "The data contract has no separate failure mode for side-face blowout. It is grouped with concrete breakout, and the lower of the two capacities governs.",
  ],
});
