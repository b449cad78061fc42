import type { LoadCurve } from "./curve";
import { lossOfAdhesion } from "./loss-of-adhesion";
import { driftBefore, driftBetweenRests, restEnd, withoutDrift } from "./rest-and-drift";
import { extent, gaugeFaults, loadFaults, requireLoad, withSignsTurned } from "./record-faults";
import { noiseOf, smooth } from "./smooth";
import type { ReductionOptions, CurveReduction } from "./curve-reduction";
import { chosenGauges, meanDisplacement, elongationPerLoad } from "./chosen-gauges";
import { driftOf } from "./judged-drift";
import { indexOfMaximum, largestStepBack, secant, meanFrom, area } from "./curve-quantities";
import { withoutLoops } from "./unloading-loops";

/**
 * Reduces a load-displacement record: zero of the load, mean of the gauges, elongation of the free
 * length, named smoothing, unloading loops taken out, seating subtracted, then peak, stiffness, loss
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
      `the seating of ${seating.toPrecision(2)} mm that was subtracted is more than 20 % of the slip at peak`,
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
