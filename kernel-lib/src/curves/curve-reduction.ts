import type { GaugePlace } from "./curve";
import type { DriftRule } from "./rest-and-drift";
import type { Smoothing } from "./smooth";

/**
 * How a record is reduced. Every rule has a name and can be changed; the defaults are common
 * practice, no source.
 */
export interface ReductionOptions {
  /** Signs to turn before all else, where the logger counts tension or movement negative. */
  readonly turn?: ReadonlyArray<"load" | "displacement">;
  /**
   * Which gauges give the slip; default: the loaded end where there is one, else the free end, else
   * all.
   */
  readonly place?: GaugePlace;
  /**
   * Free length of bar between gauge and concrete in mm, whose elongation N L / (E A) is subtracted
   * loaded-end gauges.
   */
  readonly freeLength_mm?: number;
  readonly barModulus_GPa?: number;
  readonly barArea_mm2?: number;
  /**
   * Default: moving median of 3 points on the load, which removes single spikes and leaves a sharp
   * peak.
   */
  readonly smoothing?: Smoothing;
  /**
   * What is done about slow drift of load cell and gauges; default `none`: it is pointed out and
   * left.
   */
  readonly drift?: DriftRule;
  /**
   * Slip is counted from where the load first reaches this share of the peak (seating of gauges and
   * grips); default 0.02.
   */
  readonly seatingShare?: number;
  /** Initial stiffness: secant between these shares of the peak; default 0.1 and 0.4. */
  readonly stiffnessFrom?: number;
  readonly stiffnessTo?: number;
}

/** What a record gives. Loads in kN, slips in mm, energies in kN mm (= J). */
export interface CurveReduction {
  readonly peak_load_kN: number;
  readonly slip_at_peak_mm: number;
  readonly initial_stiffness_kN_mm: number;
  /** Null when the adhesion line never crosses the curve. */
  readonly adhesion_load_kN: number | null;
  /**
   * Mean load over the last tenth of the slip; null when the record ends before 1.5 times the slip
   * at peak.
   */
  readonly residual_load_kN: number | null;
  readonly energy_to_peak_kNmm: number;
  readonly energy_kNmm: number;
  /**
   * Drift that was subtracted, per second (per reading without a time): 0 unless a rule asks for it.
   * Adding it gives the readings back.
   */
  readonly drift_kN_s: number;
  readonly drift_mm_s: number;
  /** Load reading at rest that was subtracted. */
  readonly zero_load_kN: number;
  /** Seating displacement that was subtracted. */
  readonly seating_mm: number;
  readonly noise_kN: number;
  readonly unloading_loops: number;
  /** What a careful reader should look at, in words. */
  readonly flags: ReadonlyArray<string>;
  /** The corrected curve without unloading loops. The raw record stays as it was. */
  readonly slip_mm: Float64Array;
  readonly load_kN: Float64Array;
}
