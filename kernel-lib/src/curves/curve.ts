/** Where a displacement gauge sits: at the loaded end of the bar, at its free end, or not said. */
export type GaugePlace = "loaded_end" | "free_end" | "unknown";

/** One displacement gauge's record. */
export interface Gauge {
  readonly name: string;
  readonly place: GaugePlace;
  readonly values_mm: Float64Array;
}

/** A load-displacement record as logged: equal lengths, in order of time, every value finite. */
export interface LoadCurve {
  readonly time_s: Float64Array | null;
  readonly load_kN: Float64Array;
  readonly gauges: ReadonlyArray<Gauge>;
}
