import type { Comparison, GroupSettings } from "../../comparison";
import type { EvidenceCell } from "./evidence-cells";
import type { SpecimenChoice } from "./specimen-choice";
import type { SettleSettings, TestsToSettle } from "./tests-to-settle";

/** One line of a test plan. */
export interface PlannedTests {
  readonly cell: EvidenceCell;
  /**
   * Null where the cell is settled, has no law to simulate from, or lacks an entry that every
   * verdict needs.
   */
  readonly settle: TestsToSettle | null;
  /**
   * The specimen by which the mode can be brought about; null where none is needed, or the code
   * predicts it for none.
   */
  readonly specimen: SpecimenChoice | null;
  /**
   * Specimens to make: further failures over the probability that the mode governs, in whole
   * series; null where that probability is not known, or no specimen brings the mode about.
   */
  readonly specimens: number | null;
  readonly series: number | null;
  readonly finding: "settled" | "tests needed" | "cannot be settled" | "no model";
  readonly reading: string;
}

export interface PlanSettings
  extends SettleSettings, Pick<GroupSettings, "distribution" | "cells"> {
  readonly materials?: readonly string[];
  /** Modes planned for; all of the comparison when left out. */
  readonly modes?: readonly string[];
  /** Wanted probability that the specimen fails in the mode; default 0.8. */
  readonly governs?: number;
  /**
   * The comparison that the model errors of all modes come from, where the one planned holds some
   * modes only; default the one planned.
   */
  readonly errorsFrom?: Comparison;
}
