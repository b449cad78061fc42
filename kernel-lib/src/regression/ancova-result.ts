import type { Coefficient } from "./coefficient-table";
import type { LeastSquaresFit } from "./least-squares";
import type { NumericColumn } from "./model-rows";
import type { StandardErrorMethod } from "./sandwich";
import type { RegressionStatement } from "./statement";

export interface AncovaInput {
  readonly y: NumericColumn;
  /** The variable along which the classes are compared, such as the bar diameter. */
  readonly x: NumericColumn;
  /** Class of each row, such as the bar material; a blank one sets the row aside. */
  readonly groups: ArrayLike<string>;
  /**
   * "log" takes the natural logarithm of y: slopes and gaps are then those of the log ratio.
   * Default "identity".
   */
  readonly scale?: "identity" | "log";
  readonly weights?: NumericColumn;
  readonly standardErrors?: StandardErrorMethod;
  readonly confidence?: number;
  readonly response?: string;
  readonly variable?: string;
}

/** A comparison of two classes: first less second. */
export interface ClassDifference extends Coefficient {
  readonly first: string;
  readonly second: string;
}

/** The gap between two classes at one x; `ratio` with its interval on the log scale, else null. */
export interface ClassGap extends ClassDifference {
  readonly x: number;
  readonly ratio: {
    readonly estimate: number;
    readonly lower: number;
    readonly upper: number;
  } | null;
}

export interface ClassLine {
  readonly group: string;
  readonly n: number;
  readonly slope: Coefficient;
  /** Mean of y (or of ln y) at x = 0. */
  readonly intercept: Coefficient;
}

export interface Ancova extends RegressionStatement {
  readonly scale: "identity" | "log";
  readonly confidence: number;
  readonly lines: readonly ClassLine[];
  /** Differences of slopes, each pair once; p-values are not adjusted for the number of pairs. */
  readonly slopeDifferences: readonly ClassDifference[];
  /** Test that all classes share one slope. */
  readonly equalSlopes: {
    readonly f: number;
    readonly numeratorDf: number;
    readonly denominatorDf: number;
    readonly p: number;
  };
  readonly residualSd: number;
  readonly degreesOfFreedom: number;
  readonly fit: LeastSquaresFit;
  /** Gap first - second at an x. */
  gapAt(first: string, second: string, x: number): ClassGap;
}
