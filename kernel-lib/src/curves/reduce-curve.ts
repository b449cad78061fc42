import type { Gauge, GaugePlace, LoadCurve } from "./curve";
import { lossOfAdhesion } from "./loss-of-adhesion";
import {
  driftBefore,
  driftBetweenRests,
  restEnd,
  withoutDrift,
  type Drift,
  type DriftRule,
} from "./rest-and-drift";
import { extent, gaugeFaults, loadFaults, requireLoad, withSignsTurned } from "./record-faults";
import { noiseOf, smooth, type Smoothing } from "./smooth";

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
   * Free length of bar between gauge and concrete in mm, whose elongation N L / (E A) is taken off
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
   * Drift that was taken off, per second (per reading without a time): 0 unless a rule asks for it.
   * Adding it gives the readings back.
   */
  readonly drift_kN_s: number;
  readonly drift_mm_s: number;
  /** Load reading at rest that was taken off. */
  readonly zero_load_kN: number;
  /** Seating displacement that was taken off. */
  readonly seating_mm: number;
  readonly noise_kN: number;
  readonly unloading_loops: number;
  /** What a careful reader should look at, in words. */
  readonly flags: ReadonlyArray<string>;
  /** The corrected curve without unloading loops. The raw record stays as it was. */
  readonly slip_mm: Float64Array;
  readonly load_kN: Float64Array;
}

/**
 * Reduces a load-displacement record: zero of the load, mean of the gauges, elongation of the free
 * length, named smoothing, unloading loops taken out, seating taken off, then peak, stiffness, loss
 * of adhesion, residual load and energy. Slip, stiffness, loss of adhesion and energies are NaN or
 * null, with a flag, where the displacement falls, or stays, while the load rises.
 * @throws RangeError when there is no load above the noise, or it goes further down than up.
 */
export function reduceCurve(logged: LoadCurve, options: ReductionOptions = {}): CurveReduction {
  const turn = options.turn ?? [];
  const curve = withSignsTurned(logged, turn);
  const flags = turn.map((what) => `the sign of the ${what} was turned`);
  const gauges = chosenGauges(curve, options.place, flags);
  const noise = noiseOf(curve.load_kN);
  const time = curve.time_s ?? Float64Array.from(curve.load_kN, (_, i) => i);
  const rest = restEnd(curve.load_kN);
  const rule = options.drift ?? "none";
  const [lowest, highest] = extent(curve.load_kN);
  const loadDrift = driftOf(
    "load",
    rule === "rests"
      ? driftBetweenRests(curve.load_kN, time, rest)
      : driftBefore(curve.load_kN, time, rest),
    rule,
    { share: 0.02, of: highest - lowest, unit: "kN" },
    flags,
  );
  const steady = loadDrift === null ? curve.load_kN : withoutDrift(curve.load_kN, time, loadDrift);
  const zero = rest < 3 ? 0 : steady.subarray(0, rest).reduce((a, b) => a + b, 0) / rest;
  const load = smooth(
    steady.map((value) => value - zero),
    options.smoothing ?? { rule: "moving-median", points: 3 },
  );
  const peakAt = indexOfMaximum(load);
  const peak = load[peakAt] ?? NaN;
  requireLoad(load, peak, noise);
  flags.push(...loadFaults(curve, load, peak));
  if (Math.abs(zero) > 0.05 * peak)
    flags.push(`the load reads ${zero.toPrecision(3)} kN at rest, more than 5 % of the peak`);
  if (noise > 0.02 * peak)
    flags.push(`the noise of the load is ${((100 * noise) / peak).toPrecision(2)} % of the peak`);
  if (peakAt >= load.length - 3)
    flags.push("the load still rises at the end of the record: the peak is a lower bound");

  const raw = meanDisplacement(gauges);
  const slipDrift = driftOf(
    "mean displacement",
    driftBefore(raw, time, Math.min(rest, restEnd(raw))),
    rule,
    { share: 0.05, of: Math.abs((raw[peakAt] ?? NaN) - (raw[0] ?? NaN)), unit: "mm" },
    flags,
  );
  const mean = slipDrift === null ? raw : withoutDrift(raw, time, slipDrift);
  flags.push(...gaugeFaults(gauges, curve, raw, load, peakAt));
  const elongation = elongationPerLoad(gauges, options, flags);
  const slip = mean.map((value, i) => value - elongation * (load[i] ?? NaN));
  const moved = (raw[peakAt] ?? NaN) - (raw[0] ?? NaN);
  if (moved < 0)
    flags.push(
      `the displacement falls by ${(-moved).toPrecision(2)} mm while the load rises to its peak: no slip, stiffness, loss of adhesion or energy is given. If the gauge counts movement negative, reduce with its sign turned (--turn displacement)`,
    );
  const { kept, loops } = withoutLoops(load, Math.max(6 * noise, 0.03 * peak), peakAt);
  if (loops > 0)
    flags.push(`${String(loops)} unloading ${loops === 1 ? "loop was" : "loops were"} taken out`);

  const share = options.seatingShare ?? 0.02;
  const startAt = kept.findIndex((i) => (load[i] ?? NaN) >= share * peak);
  const start = kept[startAt] ?? 0;
  const seating = slip[start] ?? NaN;
  const used = kept.slice(startAt);
  // A curve starts at the origin; slip never goes back in it.
  const slips = Float64Array.of(0, ...used.map((i) => Math.max(0, (slip[i] ?? NaN) - seating)));
  const loads = Float64Array.of(0, ...used.map((i) => load[i] ?? NaN));
  const back = largestStepBack(slips);
  if (back > 0.05 * (slips[slips.length - 1] ?? NaN))
    flags.push(
      `the slip goes back by ${back.toPrecision(2)} mm: a gauge that jumped or was set anew, or a second test in the file?`,
    );
  for (let i = 1; i < slips.length; i += 1)
    slips[i] = Math.max(slips[i] ?? NaN, slips[i - 1] ?? NaN);

  const top = indexOfMaximum(loads);
  const slipAtPeak = slips[top] ?? NaN;
  const last = slips[slips.length - 1] ?? NaN;
  if (Math.abs(seating) > 0.2 * slipAtPeak)
    flags.push(
      `the seating of ${seating.toPrecision(2)} mm that was taken off is more than 20 % of the slip at peak`,
    );
  const stiffness = secant(
    slips,
    loads,
    peak,
    options.stiffnessFrom ?? 0.1,
    options.stiffnessTo ?? 0.4,
  );
  if (moved > 0 && !Number.isFinite(stiffness))
    flags.push(
      "no slip is seen over the part of the load that the stiffness is taken from: no stiffness is given",
    );
  const reduction: CurveReduction = {
    peak_load_kN: peak,
    slip_at_peak_mm: slipAtPeak,
    initial_stiffness_kN_mm: Number.isFinite(stiffness) ? stiffness : NaN,
    adhesion_load_kN: lossOfAdhesion(slips, loads),
    residual_load_kN: last >= 1.5 * slipAtPeak ? meanFrom(slips, loads, 0.9 * last) : null,
    energy_to_peak_kNmm: area(slips, loads, top),
    energy_kNmm: area(slips, loads, slips.length - 1),
    drift_kN_s: loadDrift?.rate ?? 0,
    drift_mm_s: slipDrift?.rate ?? 0,
    zero_load_kN: zero,
    seating_mm: seating,
    noise_kN: noise,
    unloading_loops: loops,
    flags,
    slip_mm: slips,
    load_kN: loads,
  };
  return !(moved > 0)
    ? {
        ...reduction,
        slip_at_peak_mm: NaN,
        initial_stiffness_kN_mm: NaN,
        adhesion_load_kN: null,
        residual_load_kN: null,
        energy_to_peak_kNmm: NaN,
        energy_kNmm: NaN,
      }
    : reduction;
}

function chosenGauges(
  { gauges }: LoadCurve,
  place: GaugePlace | undefined,
  flags: string[],
): ReadonlyArray<Gauge> {
  const wanted =
    place ??
    (["loaded_end", "free_end", "unknown"] as const).find((p) =>
      gauges.some((gauge) => gauge.place === p),
    );
  const chosen = gauges.filter((gauge) => gauge.place === wanted);
  if (chosen.length === 0)
    throw new RangeError(
      `no gauge at "${String(wanted)}": the record has ${gauges.map(({ name }) => name).join(", ")}`,
    );
  if (chosen.length === 1) flags.push("a single gauge: tilting of the bar cannot be seen");
  return chosen;
}

/**
 * The drift to take off, or null; a clear drift is a flag either way. Clear: more than 3 standard
 * errors, and a share of what it disturbs.
 */
function driftOf(
  what: string,
  drift: Drift | null,
  rule: DriftRule,
  { share, of, unit }: { share: number; of: number; unit: string },
  flags: string[],
): Drift | null {
  if (drift === null) {
    if (rule !== "none")
      flags.push(
        `the drift of the ${what} cannot be judged: fewer than 20 readings at rest before loading, or no steady ones`,
      );
    return null;
  }
  if (Math.abs(drift.rate) <= 3 * drift.standardError || Math.abs(drift.overRecord) <= share * of)
    return null;
  flags.push(
    `the ${what} drifts by ${drift.overRecord.toPrecision(2)} ${unit} over the record, by ${String(drift.readings)} readings at rest; ${rule === "none" ? "it is left as it is (rule none)" : `it was taken off (rule ${rule})`}`,
  );
  return rule === "none" ? null : drift;
}

function meanDisplacement(gauges: ReadonlyArray<Gauge>): Float64Array {
  const first = gauges[0]?.values_mm ?? new Float64Array(0);
  return first.map(
    (_, i) => gauges.reduce((sum, { values_mm }) => sum + (values_mm[i] ?? NaN), 0) / gauges.length,
  );
}

function elongationPerLoad(
  gauges: ReadonlyArray<Gauge>,
  { freeLength_mm, barModulus_GPa, barArea_mm2 }: ReductionOptions,
  flags: string[],
): number {
  if (gauges[0]?.place === "free_end") return 0;
  if (freeLength_mm === undefined || barModulus_GPa === undefined || barArea_mm2 === undefined) {
    flags.push(
      "the elongation of the free length is not taken off: free length, modulus or area is not given",
    );
    return 0;
  }
  return freeLength_mm / (barModulus_GPa * barArea_mm2);
}

/**
 * Indices of the readings outside unloading loops: a loop starts when the load falls by `drop`
 * before the peak and ends when it is back.
 */
function withoutLoops(
  load: Float64Array,
  drop: number,
  peakAt: number,
): { kept: number[]; loops: number } {
  const kept: number[] = [];
  let highest = -Infinity;
  let loops = 0;
  let inside = false;
  for (let i = 0; i < load.length; i += 1) {
    const value = load[i] ?? NaN;
    if (i <= peakAt) {
      if (!inside && value < highest - drop) {
        inside = true;
        loops += 1;
        // The readings between the turning point and here belong to the loop as well.
        while (kept.length > 0 && (load[kept[kept.length - 1] ?? 0] ?? NaN) < highest) kept.pop();
      }
      if (inside && value >= highest) inside = false;
      highest = Math.max(highest, value);
    }
    if (!inside || i > peakAt) kept.push(i);
  }
  return { kept, loops };
}

function indexOfMaximum(values: Float64Array): number {
  let best = 0;
  for (let i = 1; i < values.length; i += 1)
    if ((values[i] ?? NaN) > (values[best] ?? NaN)) best = i;
  return best;
}

function largestStepBack(slips: Float64Array): number {
  let furthest = 0;
  let back = 0;
  for (const slip of slips) {
    furthest = Math.max(furthest, slip);
    back = Math.max(back, furthest - slip);
  }
  return back;
}

function slipAtLoad(slips: Float64Array, loads: Float64Array, wanted: number): number {
  const at = loads.findIndex((value) => value >= wanted);
  if (at < 1) return NaN;
  const [s0, s1, n0, n1] = [
    slips[at - 1] ?? NaN,
    slips[at] ?? NaN,
    loads[at - 1] ?? NaN,
    loads[at] ?? NaN,
  ];
  return s0 + ((wanted - n0) / (n1 - n0)) * (s1 - s0);
}

function secant(
  slips: Float64Array,
  loads: Float64Array,
  peak: number,
  from: number,
  to: number,
): number {
  return (
    ((to - from) * peak) /
    (slipAtLoad(slips, loads, to * peak) - slipAtLoad(slips, loads, from * peak))
  );
}

function area(slips: Float64Array, loads: Float64Array, end: number): number {
  let sum = 0;
  for (let i = 1; i <= end; i += 1)
    sum +=
      0.5 *
      ((loads[i] ?? NaN) + (loads[i - 1] ?? NaN)) *
      ((slips[i] ?? NaN) - (slips[i - 1] ?? NaN));
  return sum;
}

function meanFrom(slips: Float64Array, loads: Float64Array, from: number): number {
  const tail = loads.filter((_, i) => (slips[i] ?? NaN) >= from);
  return tail.reduce((a, b) => a + b, 0) / tail.length;
}
