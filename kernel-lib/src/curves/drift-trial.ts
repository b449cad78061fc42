import type { LoadCurve } from "./curve";
import { reduceCurve } from "./reduce-curve";
import type { CurveReduction, ReductionOptions } from "./curve-reduction";
import { restEnd, type DriftRule } from "./rest-and-drift";

/** A known drift that is added to a record. */
export interface KnownDrift {
  /** Drift over the whole record as a share of the peak load; default 0.03. */
  readonly share?: number;
  /** Readings at rest that are put before the record, one a second; default 120. */
  readonly rest?: number;
}

/** What one rule makes of a record with a known drift. */
export interface DriftTrial {
  readonly rule: DriftRule;
  readonly reduction: CurveReduction;
  /** Peak load over that of the record without the added drift, less 1. */
  readonly error: number;
}

const RULES: readonly DriftRule[] = ["none", "rest-before"];

/** Scatter added to the load readings, kN: invented, so that the drift has to be estimated. */
const SCATTER_kN = [0.006, -0.01, 0.004, 0.008, -0.008];

/**
 * A steady drift of the load cell of known size, left in a record and taken off by a rule: how well
 * the rule recovers the peak load.
 *
 * P'(t) = P(t) + share P_max t / T, t in s from the start of a rest that is put before the record,
 * T the length of both. Readings of the rest and a scatter of 0.01 kN are invented.
 * @throws RangeError for a share or a number of readings that cannot be used, or an unusable record
 * @example driftTrial(record, { share: 0.03 }).map(({ rule, error }) => [rule, error])
 */
export function driftTrial(
  record: LoadCurve,
  { share = 0.03, rest = 120 }: KnownDrift = {},
  options: Omit<ReductionOptions, "drift"> = {},
): DriftTrial[] {
  if (!(Math.abs(share) < 1))
    throw new RangeError(`the drift is ${String(share)} of the peak load: expected -1 to 1`);
  if (!Number.isInteger(rest) || rest < 20)
    throw new RangeError(`the rest has ${String(rest)} readings: expected a whole number from 20`);
  const peak = reduceCurve(record, options).peak_load_kN;
  // Only readings at rest are repeated; a record may begin under load.
  const before = { rest, repeated: Math.min(10, Math.max(1, restEnd(record.load_kN))) };
  const load = withRest(record.load_kN, before, SCATTER_kN);
  const drifting: LoadCurve = {
    time_s: Float64Array.from(load, (_, i) => i),
    load_kN: load.map((value, i) => value + (share * peak * i) / load.length),
    gauges: record.gauges.map((gauge) => ({
      ...gauge,
      values_mm: withRest(gauge.values_mm, before, [0]),
    })),
  };
  return RULES.map((rule) => {
    const reduction = reduceCurve(drifting, { ...options, drift: rule });
    return { rule, reduction, error: reduction.peak_load_kN / peak - 1 };
  });
}

/**
 * The readings with a rest before them, the first readings (`repeated` of them) again and again,
 * and some scatter.
 */
function withRest(
  values: Float64Array,
  { rest, repeated }: { readonly rest: number; readonly repeated: number },
  scatter: readonly number[],
): Float64Array {
  return Float64Array.from({ length: values.length + rest }, (_, i) => {
    const reading = i < rest ? values[i % repeated]! : values[i - rest]!;
    return reading + scatter[i % scatter.length]!;
  });
}
