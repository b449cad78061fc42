import type { Confidence } from "./levels";

/**
 * The capacities that one equation of an interaction compares: all of them, those of the bar, or
 * those of concrete and bond.
 */
export type InteractionScope = "every" | "steel" | "other";

/**
 * One equation of an interaction, as the resultant at which it is met along a load path from zero
 * at a constant angle.
 */
export interface InteractionEquation {
  readonly of: InteractionScope;
  readonly clause: string;
  readonly meaning: string;
  /**
   * The resultant, from `P_N` and `P_V`: the resultants at which tension alone, and shear alone,
   * reach their capacities.
   */
  readonly resultant: string;
}

/** How a code joins tension and shear: the resultant capacity is the least of the equations. */
export interface InteractionRule {
  readonly clause: string;
  readonly title: string;
  readonly confidence: Confidence;
  readonly equations: readonly InteractionEquation[];
}
