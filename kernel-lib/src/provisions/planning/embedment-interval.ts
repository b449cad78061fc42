import type { FailureMode } from "../model/levels";
import type { PlanningSettings } from "./mode-loads";

export interface EmbedmentSettings extends PlanningSettings {
  /**
   * Least margin of everything else over the mode, relative: 0.25 asks for 25 % more. Default 0.
   */
  readonly above?: number;
  /**
   * Range looked at, mm; by default 2 to 30 bar diameters, no deeper than the member where its
   * thickness is known.
   */
  readonly from?: number;
  readonly to?: number;
  /**
   * Whether embedments beyond a limit that the wanted mode's provision only reports count, too.
   * Default no.
   */
  readonly beyondLimits?: boolean;
}

/**
 * A range of embedments that answer the question, with what ends it on each side; lengths in mm.
 */
export interface EmbedmentInterval {
  readonly from: number;
  readonly to: number;
  readonly fromBecause: string;
  readonly toBecause: string;
}

/** One embedment looked at. */
export interface EmbedmentPoint {
  readonly embedment: number;
  /** Load of the wanted mode, N. */
  readonly wanted_N: number;
  readonly rival: string | null;
  readonly rival_N: number;
  readonly margin: number;
  /** Why it does not count in spite of its margin; empty when it does. */
  readonly withheld: string;
}

/** The embedments at which the wanted mode governs with the margin asked for. */
export interface EmbedmentForMode {
  readonly mode: FailureMode;
  readonly above: number;
  readonly from: number;
  readonly to: number;
  /** In order; empty when there is none. */
  readonly intervals: readonly EmbedmentInterval[];
  /**
   * The embedment with the largest margin; where there is no interval, the nearest miss. Null where
   * the mode is nowhere given.
   */
  readonly best: EmbedmentPoint | null;
  /** All embedments looked at, in order: margin over embedment, ready to be drawn. */
  readonly line: readonly EmbedmentPoint[];
  readonly unjudged: readonly string[];
  readonly reading: string;
}
