import { noiseOf } from "./smooth";

/**
 * How slow drift is subtracted. `none`: it is only pointed out. `rest-before`: the line through the
 * readings at rest before loading is carried on over the record, load and gauges. `rests`: for the
 * load the line through its rests before and after the test; gauges as in `rest-before`.
 */
export type DriftRule = "none" | "rest-before" | "rests";

/**
 * A steady drift as seen at rest, in units of the reading per second (per reading where no time was
 * logged).
 */
export interface Drift {
  readonly rate: number;
  /** Standard error of the rate; 0 for the line between two rests. */
  readonly standardError: number;
  /** Time at which nothing is subtracted. */
  readonly from: number;
  /** What the drift comes to over the whole record. */
  readonly overRecord: number;
  readonly readings: number;
}

/** Number of readings before the load first moves by more than the noise. */
export function restEnd(load: Float64Array): number {
  const noise = noiseOf(load);
  const highest = load.reduce((a, b) => Math.max(a, b), -Infinity);
  const first = load[0] ?? 0;
  const threshold = Math.max(6 * noise, 0.005 * (highest - first));
  const end = load.findIndex((value) => Math.abs(value - first) > threshold);
  return Math.max(0, end);
}

/**
 * Drift at rest by least squares of the first `end` readings on time; null for fewer than 20
 * readings, too few to carry on over a whole record, and where the two halves of the rest have
 * clearly different slopes: that is seating or handling, no steady drift.
 */
export function driftBefore(values: Float64Array, time: Float64Array, end: number): Drift | null {
  if (end < 20) return null;
  const whole = line(values, time, 0, end);
  const [first, second] = [
    line(values, time, 0, Math.ceil(end / 2)),
    line(values, time, Math.floor(end / 2), end),
  ];
  if (whole === null || first === null || second === null) return null;
  if (
    Math.abs(first.rate - second.rate) >
    3 * Math.hypot(first.standardError, second.standardError)
  )
    return null;
  return { ...whole, overRecord: whole.rate * lengthOf(time), readings: end };
}

function line(
  values: Float64Array,
  time: Float64Array,
  start: number,
  end: number,
): Pick<Drift, "rate" | "standardError" | "from"> | null {
  const n = end - start;
  const mean = (of: Float64Array): number => of.subarray(start, end).reduce((a, b) => a + b, 0) / n;
  const [mt, mv] = [mean(time), mean(values)];
  let [stt, stv] = [0, 0];
  for (let i = start; i < end; i += 1) {
    stt += ((time[i] ?? NaN) - mt) ** 2;
    stv += ((time[i] ?? NaN) - mt) * ((values[i] ?? NaN) - mv);
  }
  if (!(stt > 0) || n < 3) return null;
  const rate = stv / stt;
  let left = 0;
  for (let i = start; i < end; i += 1)
    left += ((values[i] ?? NaN) - mv - rate * ((time[i] ?? NaN) - mt)) ** 2;
  return { rate, standardError: Math.sqrt(left / (n - 2) / stt), from: mt };
}

/**
 * Drift of the load between its rests before and after the test: at least 5 readings before, and 10
 * behind that the test left at rest.
 */
export function driftBetweenRests(
  load: Float64Array,
  time: Float64Array,
  end: number,
): Drift | null {
  const highest = load.reduce((a, b) => Math.max(a, b), -Infinity);
  const after = restEnd(load.slice().reverse());
  const start = load.length - after;
  const mean = (of: Float64Array, a: number, b: number): number =>
    of.subarray(a, b).reduce((sum, value) => sum + value, 0) / (b - a);
  const [before, behind] = [mean(load, 0, Math.max(1, end)), mean(load, start, load.length)];
  // A plateau under residual load is no rest.
  if (end < 5 || after < 10 || Math.abs(behind - before) > 0.2 * highest) return null;
  const from = mean(time, 0, end);
  const rate = (behind - before) / (mean(time, start, load.length) - from);
  return { rate, standardError: 0, from, overRecord: rate * lengthOf(time), readings: end + after };
}

/**
 * Readings without the drift. Adding rate x (time - from) again gives the readings as they were.
 */
export function withoutDrift(
  values: Float64Array,
  time: Float64Array,
  { rate, from }: Pick<Drift, "rate" | "from">,
): Float64Array {
  return values.map((value, i) => value - rate * ((time[i] ?? NaN) - from));
}

function lengthOf(time: Float64Array): number {
  return (time[time.length - 1] ?? NaN) - (time[0] ?? NaN);
}
