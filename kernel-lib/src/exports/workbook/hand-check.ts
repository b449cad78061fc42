import type { Trace } from "../../provisions";
import type { Sheet } from "../../tables";

/** One hand calculation to be laid out as live formulas. */
export interface HandCheck {
  readonly test: string;
  /** Peak load, kN. */
  readonly load: number;
  readonly trace: Trace;
  /** Capacity with the proposal over the present one; left out, 1. */
  readonly factor?: number;
}

/** A laid-out hand calculation and where its results stand. */
export interface HandCheckSheet {
  readonly sheet: Sheet;
  readonly check: HandCheck;
  readonly load: string;
  readonly capacity: string;
  readonly ratio: string;
  /** Largest relative difference to the library's values. */
  readonly difference: string;
}
