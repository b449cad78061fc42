import type { Confidence } from "./levels";

/**
 * A rule on how bars are placed (spacing, edge, thickness) that is kept or not, beside any
 * capacity.
 */
export interface DetailCheck {
  /** Short name, unlike that of any other check of the code. */
  readonly id: string;
  readonly clause: string;
  /** Formula: whether the rule concerns the specimen at all. */
  readonly concerns: string;
  /** Formula: the value that is judged and the least it must reach. */
  readonly value: string;
  readonly least: string;
  readonly says: string;
  readonly confidence: Confidence;
}
