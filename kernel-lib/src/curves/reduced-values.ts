import { neutralCsvText } from "../dataset";
import type { CURVE_VALUE_COLUMNS } from "../dataset/reading/curve-values";
import type { CurveReduction } from "./curve-reduction";

/** A test with its reduced record. */
export interface ReducedTest {
  readonly test_id: string;
  readonly file: string;
  readonly sha256: string;
  readonly reduction: CurveReduction;
  /** Slip of the free end at the peak, where the record has gauges at both ends; null otherwise. */
  readonly freeEndSlip_mm: number | null;
}

/** Where each column of reduced values comes from. */
const COLUMNS: ReadonlyArray<
  readonly [(typeof CURVE_VALUE_COLUMNS)[number], (r: CurveReduction) => number | null]
> = [
  ["curve_peak_kN", (r) => r.peak_load_kN],
  ["curve_slip_at_peak_mm", (r) => r.slip_at_peak_mm],
  ["curve_stiffness_kN_mm", (r) => r.initial_stiffness_kN_mm],
  ["curve_adhesion_load_kN", (r) => r.adhesion_load_kN],
  ["curve_residual_kN", (r) => r.residual_load_kN],
  ["curve_energy_to_peak_kNmm", (r) => r.energy_to_peak_kNmm],
  ["curve_energy_kNmm", (r) => r.energy_kNmm],
];

/** Subtracted or found while reducing: for a reader who wants to go back to the record. */
const CORRECTIONS: ReadonlyArray<readonly [string, (r: CurveReduction) => number | null]> = [
  ["zero_load_kN", (r) => r.zero_load_kN],
  ["seating_mm", (r) => r.seating_mm],
  ["drift_kN_s", (r) => r.drift_kN_s],
  ["drift_mm_s", (r) => r.drift_mm_s],
  ["noise_kN", (r) => r.noise_kN],
  ["unloading_loops", (r) => r.unloading_loops],
];

/** Eight digits: far more than any gauge gives, without the last bits' noise. */
const finite = (value: number | null): number | null =>
  value === null || !Number.isFinite(value) ? null : Number(value.toPrecision(8));

/** The reduced values of a record as further columns of its test. */
export function reducedColumns(reduction: CurveReduction): Readonly<Record<string, number | null>> {
  return Object.fromEntries(COLUMNS.map(([name, of]) => [name, finite(of(reduction))]));
}

/**
 * Reduced values as CSV: one line a record, with the link to the record, its SHA-256, every
 * correction and every flag.
 */
export function curveValuesCsv(curves: ReadonlyArray<ReducedTest>): string {
  const header = [
    "test_id",
    "curve",
    "curve_sha256",
    ...COLUMNS.map(([name]) => name),
    ...CORRECTIONS.map(([name]) => name),
    "free_end_slip_at_peak_mm",
    "flags",
  ];
  return neutralCsvText(
    header,
    curves.map(({ test_id, file, sha256, reduction, freeEndSlip_mm }) => [
      test_id,
      file,
      sha256,
      ...[...COLUMNS, ...CORRECTIONS].map(([, of]) => finite(of(reduction))),
      finite(freeEndSlip_mm),
      reduction.flags.join("; ") || null,
    ]),
  );
}
