import type { TestTable } from "../dataset";
import type { CodeDefinition, CodePrediction, PredictionSettings } from "../provisions";
import type { LowerBoundRule } from "./lower-bound-rule";
import type { Components, RatioMode } from "./pairs-of-test";
import type { NotJudgedStatus, Scope } from "./scope";
import type { ConfinedBondFactor } from "./setup-factor";

/**
 * `observed mode`: the capacity of the mode that was observed. `governing mode`: the least capacity of
 * all free modes.
 */
export type CapacityOf = "observed mode" | "governing mode";

export interface ComparisonSettings extends PredictionSettings {
  readonly capacityOf?: CapacityOf;
  readonly lowerBounds?: LowerBoundRule;
  /**
   * Which pairs enter the ratios; `judged` by default. `all` pools every pair that has a capacity
   * and a load.
   */
  readonly scope?: Scope;
  /**
   * Dimensionless; multiplies the load of `confined_tension` tests where it is evidence of bond,
   * and nowhere else, because a confining set-up raises the bond stress above that of an unconfined
   * bar. A number, or a published factor by name, which may depend on the crack state: see
   * `SETUP_FACTORS` and their sources. Left out, confined tests do not judge the bond of an anchor;
   * stated, they do, with the factor, and 1 takes them as they are.
   */
  readonly confinedBondFactor?: ConfinedBondFactor;
}

/** One test-to-predicted ratio, or a lower bound of it. */
export interface Evidence {
  readonly row: number;
  /** Column of the prediction; -1 for an interaction. */
  readonly column: number;
  /**
   * The mode the capacity belongs to, by which evidence is grouped; `interaction` for tension and
   * shear at once.
   */
  readonly mode: RatioMode;
  /** Of an interaction: the columns with the governing capacities in tension and in shear. */
  readonly components?: Components;
  /** kN; the peak load, times `confinedBondFactor` where that applies. */
  readonly load: number;
  /** kN */
  readonly capacity: number;
  /** Dimensionless: peak load over capacity. */
  readonly ratio: number;
  /** True when the test did not fail in this mode, so that its ratio is a lower bound. */
  readonly bound: boolean;
}

/** A pair of test and provision that is not judged. */
export interface NotJudged {
  readonly row: number;
  /** Column of the prediction; -1 where the code has no provision to pair the test with. */
  readonly column: number;
  /** Mode of the provision; null where there is none. */
  readonly mode: RatioMode | null;
  /** True when the test would be a lower bound of the mode only. */
  readonly bound: boolean;
  readonly status: NotJudgedStatus;
  /** The limit, the set-ups that test the provision, or the input: the same words for every row. */
  readonly reason: string;
  /** What this row has, where a limit compares values. */
  readonly value: string;
}

/** Tests joined with one code's predictions. */
export interface Comparison {
  readonly tests: TestTable;
  readonly code: CodeDefinition;
  readonly prediction: CodePrediction;
  readonly capacityOf: CapacityOf;
  readonly lowerBounds: LowerBoundRule;
  readonly scope: Scope;
  /** As stated in the settings; null where none was. */
  readonly confinedBondFactor: ConfinedBondFactor | null;
  readonly evidence: readonly Evidence[];
  /** Every pair that is not judged, whether or not the scope pools it with the others. */
  readonly notJudged: readonly NotJudged[];
  /** Tests that give no ratio, each with the reason that concerns the mode it failed in. */
  readonly unused: readonly {
    readonly row: number;
    readonly status: NotJudgedStatus;
    readonly reason: string;
  }[];
}
