import type { LognormalLaw } from "./lognormal-law";

/**
 * A test that ended in its grip, with what a grip that spares the bar is predicted to have shown.
 */
export interface BrokenTest {
  readonly row: number;
  readonly testId: string;
  readonly grip: string | null;
  readonly peak_kN: number;
  /** Share of the measured bar strength at the peak load. */
  readonly share: number;
  /** Probability of each mode that the code predicts for this test. */
  readonly modes: Readonly<Record<string, number>>;
  /** Probability of bar rupture. */
  readonly rupture: number;
  /** Predicted final load, kN: median and central 90 %. */
  readonly median_kN: number;
  readonly lower_kN: number;
  readonly upper_kN: number;
}

/** How many of the broken tests are predicted to have reached a mode. */
export interface ModeShown {
  readonly mode: string;
  /** Expected number of tests. */
  readonly expected: number;
  /** Tests for which the mode is predicted. */
  readonly tests: number;
}

/** Numbers of tests by reason. */
export type ByReason = readonly { readonly reason: string; readonly n: number }[];

export interface BetterGrip {
  readonly tests: readonly BrokenTest[];
  /** Expected counts by mode, bar rupture among them; they add up to the number of tests. */
  readonly modes: readonly ModeShown[];
  /** Laws of the test-to-predicted ratio, fitted without the tests that broke in the grip. */
  readonly laws: readonly {
    readonly mode: string;
    readonly group: string;
    readonly law: LognormalLaw;
  }[];
  /** Tests that broke in the grip and are not predicted. */
  readonly notPredicted: ByReason;
  /** Modes left out of a prediction for want of a law. */
  readonly modesLeftOut: ByReason;
  readonly reading: string;
}
