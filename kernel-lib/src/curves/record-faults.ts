import type { Gauge, LoadCurve } from "./curve";

/**
 * Readings in a row that must agree to the last digit before a record counts as clipped or a gauge
 * as stuck. Common practice, no source.
 */
const RUN = 5;

/**
 * A load beyond which no bar of a test is pulled; more is nearly always newtons under the name of
 * kilonewtons. Common practice, no source.
 */
const LARGEST_LOAD_KN = 5000;

/**
 * The record with the sign of load or displacements turned, for loggers that count tension or
 * movement negative; the file stays as it is.
 * @param turned which sign to turn
 */
export function withSignsTurned(
  curve: LoadCurve,
  turned: ReadonlyArray<"load" | "displacement">,
): LoadCurve {
  const negative = (values: Float64Array): Float64Array => values.map((value) => -value);
  return {
    time_s: curve.time_s,
    load_kN: turned.includes("load") ? negative(curve.load_kN) : curve.load_kN,
    gauges: turned.includes("displacement")
      ? curve.gauges.map((gauge) => ({ ...gauge, values_mm: negative(gauge.values_mm) }))
      : curve.gauges,
  };
}

/**
 * A load that cannot be a test's: one that never changes, or that goes further down than up.
 * @param load load without its zero
 * @throws RangeError which says so
 */
export function requireLoad(load: Float64Array, peak: number, noise: number): void {
  const [lowest, highest] = extent(load);
  if (lowest === highest)
    throw new RangeError(
      `no load above the noise: it never changes in ${String(load.length)} readings, expected a record of a test`,
    );
  if (-lowest > Math.max(peak, 10 * noise))
    throw new RangeError(
      `the load goes down to ${lowest.toPrecision(4)} kN and up to ${Math.max(0, highest).toPrecision(4)} kN only, expected tension as positive: if the logger counts it negative, reduce with the sign of the load turned (--turn load)`,
    );
  if (!(peak > 10 * noise))
    throw new RangeError(
      `no load above the noise: peak ${peak.toPrecision(4)} kN, noise ${noise.toPrecision(2)} kN, expected a record of a test`,
    );
}

/**
 * What the load as logged looks like beside its peak: clipped at its top, begun late, or in another
 * unit.
 */
export function loadFaults({ load_kN }: LoadCurve, load: Float64Array, peak: number): string[] {
  const flags: string[] = [];
  const [, highest] = extent(load_kN);
  const top = longestRun(load_kN, (value) => value === highest);
  // A coarse reading repeats itself all the way up; a clipped one at its top only.
  const elsewhere = longestRun(load_kN, (value) => value > 0.1 * peak && value < 0.95 * highest);
  if (top.length >= RUN && top.length > 2 * elsewhere.length)
    flags.push(
      `the load stands at its highest value, ${String(load_kN[top.from])} kN, in ${readings(top)}: where the logger or its amplifier clipped it, the peak is a lower bound`,
    );
  const first = load[0] ?? NaN;
  if (first > 0.1 * peak)
    flags.push(
      `the record begins at ${first.toPrecision(3)} kN, ${((100 * first) / peak).toFixed(0)} % of the peak: its beginning is missing, and slip and stiffness count from there`,
    );
  if (peak > LARGEST_LOAD_KN)
    flags.push(`the peak is ${peak.toPrecision(4)} kN: is the load in N?`);
  return flags;
}

/**
 * What the gauges look like beside the load: unlike their mean, against each other, never moving,
 * or standing still while the load goes on.
 */
export function gaugeFaults(
  chosen: ReadonlyArray<Gauge>,
  { gauges }: LoadCurve,
  mean: Float64Array,
  load: Float64Array,
  peakAt: number,
): string[] {
  const flags: string[] = [];
  const moved = (values: Float64Array): number => (values[peakAt] ?? NaN) - (values[0] ?? NaN);
  const [forward, back] = [
    chosen.filter(({ values_mm }) => moved(values_mm) > 0),
    chosen.filter(({ values_mm }) => moved(values_mm) < 0),
  ];
  if (forward[0] !== undefined && back[0] !== undefined)
    flags.push(
      `gauge ${forward[0].name} moves by ${moved(forward[0].values_mm).toPrecision(2)} mm up to the peak and gauge ${back[0].name} by ${moved(back[0].values_mm).toPrecision(2)} mm: is one of them counted negative? their mean was used`,
    );
  for (const { name, values_mm } of chosen) {
    if (Math.abs(Math.abs(moved(values_mm)) - Math.abs(moved(mean))) > 0.3 * Math.abs(moved(mean)))
      flags.push(`gauge ${name} differs from the mean by more than 30 % at the peak`);
    if (values_mm.every((value) => value === values_mm[0])) flags.push(`gauge ${name} never moves`);
  }
  for (const { name, values_mm } of gauges) {
    const still = longestRun(values_mm, (value) => value !== values_mm[0]);
    const [lowest, highest] = extent(load.subarray(still.from, still.from + still.length));
    if (still.length >= RUN && highest - lowest > 0.2 * (load[peakAt] ?? NaN))
      flags.push(
        `gauge ${name} stands still at ${String(values_mm[still.from])} mm in ${readings(still)}, while the load changes by ${(highest - lowest).toPrecision(3)} kN: stuck, at the end of its travel, or fallen off?`,
      );
  }
  return flags;
}

interface Run {
  readonly from: number;
  readonly length: number;
}

/** The longest run of equal readings whose value is asked for; of length 0 where there is none. */
function longestRun(values: Float64Array, asked: (value: number) => boolean): Run {
  let longest: Run = { from: 0, length: 0 };
  for (let i = 0; i < values.length;) {
    const value = values[i] ?? NaN;
    let end = i + 1;
    while (end < values.length && values[end] === value) end += 1;
    if (end - i > longest.length && asked(value)) longest = { from: i, length: end - i };
    i = end;
  }
  return longest;
}

function readings({ from, length }: Run): string {
  return `${String(length)} readings in a row (${String(from + 1)} to ${String(from + length)})`;
}

/** Least and largest value. */
export function extent(values: Float64Array): [number, number] {
  return [
    values.reduce((a, b) => Math.min(a, b), Infinity),
    values.reduce((a, b) => Math.max(a, b), -Infinity),
  ];
}
