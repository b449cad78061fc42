import type { CriterionResult } from "./criterion";
import type { SteelPair } from "./steel-pairs";

/** What the comparison with steel gives beside its factor. */
export interface AsSteel extends CriterionResult {
  readonly criterion: "as steel";
  readonly pairs: readonly SteelPair[];
  /** Columns that define the cells. */
  readonly columns: readonly string[];
  /** Failures of FRP bars in cells where no steel bar failed in the mode. */
  readonly unpaired: number;
  /**
   * Bar diameter at which the ratio is taken, mm: the geometric mean of the FRP bars; null where
   * size does not vary.
   */
  readonly diameter_mm: number | null;
  /**
   * Scatter of ln(ratio), steel and FRP, where it differs significantly; null where one scatter
   * serves both.
   */
  readonly scatter: readonly [steel: number, frp: number] | null;
}

/**
 * What is asked, and whether studies have an effect of their own where the tests can carry it
 * (default).
 */
export interface SteelQuestion {
  readonly fractile: number;
  readonly confidence: number;
  readonly studyEffects?: boolean;
}
