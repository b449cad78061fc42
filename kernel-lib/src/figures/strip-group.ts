import type { FigureText } from "./figure";

/** One test in a strip. */
export interface StripTest {
  /** Test-to-predicted ratio, dimensionless. */
  readonly ratio: number;
  /** True where the test did not fail in the mode of the group: its ratio is a lower bound. */
  readonly censored: boolean;
  readonly label?: string;
}

/** One strip. Missing statistics are NaN and leave no mark. */
export interface StripGroup {
  readonly label: string;
  readonly tests: readonly StripTest[];
  readonly mean: number;
  readonly meanMinus3Sd: number;
  /**
   * Estimate of the 5 % fractile with its one-sided bounds at the confidence that the caption
   * names.
   */
  readonly fractile: number;
  readonly lower: number;
  readonly upper: number;
  /** The verdict in words, shown to the right of the strip. */
  readonly verdict?: string;
}

export interface RatioStripInput extends FigureText {
  readonly groups: readonly StripGroup[];
  /** Title of the ratio axis. */
  readonly ratioTitle?: string;
  /** Level drawn across, and from 0 to which the axis reaches; 1 by default, null for none. */
  readonly level?: number | null;
}
