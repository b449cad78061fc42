import {
  reported,
  required,
  step,
  type CodeOption,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";

/** Option of every model that rests on a mean bond stress. */
export const MEAN_BOND_STRESS: CodeOption = {
  quantity: "stress",
  value: 0,
  meaning: "mean bond stress for every row; 0 uses column bond_strength_mean_MPa of each row",
  clause: "bond",
};

/** The mean bond stress used. */
export const meanBondStress: Step = step(
  "tau_m",
  "if(mean_bond_stress > 0, mean_bond_stress, tau_mean)",
  "stress",
  "bond",
  "mean bond stress",
);

/** What differs between the models of a cone with bond below it. */
export interface ConeForm {
  readonly id: string;
  readonly title: string;
  /** Steps from tau_m to h_c, the cone depth of minimum load. */
  readonly depth: readonly Step[];
  /** Formula of the load of a cone of depth h_c_used. */
  readonly cone: string;
  /** How far the cone reaches sideways, in depths. */
  readonly reach: number;
}

/**
 * Mean load of a bonded bar failing by a cone with uniform bond below it: N(h_c) = cone(h_c) + tau
 * pi d (h_ef - h_c) at the depth where it is least; the cone alone when h_ef is less (N, mm, MPa).
 */
export const coneWithBond = ({ id, title, depth, cone, reach }: ConeForm): ProvisionDefinition => ({
  id,
  title,
  action: "tension",
  modes: ["combined_cone_bond", "bond"],
  confidence: "M",
  levels: ["expected"],
  limits: [
    required("single bar", "n_x * n_y == 1", "for single bars only"),
    reported(
      "single bar",
      `min(c_1, c_2, c_3, c_4) >= ${reach === 1 ? "" : `${reach} * `}h_c_used`,
      "for bars remote from edges; here an edge intersects the cone",
    ),
  ],
  steps: [
    meanBondStress,
    ...depth,
    step(
      "h_c_used",
      "min(h_c, h_ef)",
      "length",
      "least load",
      "depth of the cone used, at most the embedment",
    ),
    step("N_cone", cone, "force", "cone", "cone load"),
    step(
      "N_bond",
      "tau_m * pi * d_a * (h_ef - h_c_used)",
      "force",
      "bond",
      "bond load below the cone",
    ),
    step("N_u", "N_cone + N_bond", "force", "least load", "mean load"),
  ],
  capacity: "N_u",
});
