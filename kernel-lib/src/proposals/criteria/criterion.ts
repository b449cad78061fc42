/** What a factor is to achieve. */
export type Criterion = "fractile" | "as steel" | "reliability";

export const CRITERIA: readonly Criterion[] = ["fractile", "as steel", "reliability"];

/**
 * What one criterion gives for a group: an estimate with one-sided bounds, or the reason why there
 * is none.
 */
export interface CriterionResult {
  readonly criterion: Criterion;
  /**
   * The factor that a proposal rests on, not rounded: the lower bound; null where there is none.
   */
  readonly factor: number | null;
  readonly estimate: number | null;
  /** One-sided bounds, each with the stated confidence. */
  readonly lower: number | null;
  readonly upper: number | null;
  /** What it rests on, or what is missing. */
  readonly basis: string;
}

/** A criterion without a factor, and why. */
export function withoutFactor(criterion: Criterion, basis: string): CriterionResult {
  return { criterion, factor: null, estimate: null, lower: null, upper: null, basis };
}
