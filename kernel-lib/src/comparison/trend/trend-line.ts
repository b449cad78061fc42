import type { Coefficient, LeastSquaresFit } from "../../regression";

/** One test along a variable. */
export interface TrendPoint {
  /** The group whose line it belongs to. */
  readonly group: string;
  /** Slopes are compared among the groups of one family, such as a failure mode. */
  readonly family: string;
  readonly x: number;
  readonly y: number;
  /** Series, or study where that is the unit; null where none is named. */
  readonly series: string | null;
  /** True for a lower bound: counted, never fitted. */
  readonly bound: boolean;
  readonly label: string;
  /** Values of further columns, which the series model may allow for (`seriesModels`). */
  readonly beside?: Readonly<Record<string, string | number | null>>;
}

/** What shares a concrete, a crew or a laboratory, in words: one and several. */
export type TrendUnit = readonly [one: string, several: string];

export interface TrendQuestion {
  /** `log` fits ln y: slopes are relative changes; `value` fits y itself. */
  readonly scale: "value" | "log";
  /** Whether tests of one series may be alike. */
  readonly seriesEffect: boolean;
  /** Values of the variable at which the lines are read. */
  readonly at: readonly number[];
  /** Two-sided confidence of slopes and means; default 0.95. */
  readonly confidence?: number;
  readonly response: string;
  readonly variable: string;
  /** What `series` of the points names; default series. */
  readonly unit?: TrendUnit;
}

/** The line of one group; null with its reason where there is none. */
export interface TrendLine {
  readonly group: string;
  readonly family: string;
  readonly points: readonly TrendPoint[];
  readonly n: number;
  readonly lowerBounds: number;
  readonly series: number;
  /** Least and largest value of the variable among the tests fitted; NaN where there is none. */
  readonly from: number;
  readonly to: number;
  readonly slope: Coefficient | null;
  readonly fit: LeastSquaresFit | null;
  /** Share of the variance about the line that lies between series (`mixedModel`). */
  readonly icc: number | null;
  readonly reason: string;
}
