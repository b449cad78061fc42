import { csvText, type TestRowInput } from "../dataset";
import { createRandom } from "../statistics/random";

/** What the invented load-displacement records are made from. */
export const CURVE_TRUTH = {
  /** Ascent: N / peak = (slip / slip at peak)^0.4. */
  ascentExponent: 0.4,
  /** Descent: N / peak = 1 - 0.15 (slip / slip at peak - 1), down to the residual share. */
  descentSlope: 0.15,
  residualShare: 0.45,
  /** The record ends at this multiple of the slip at peak. */
  endRatio: 6,
  /** Free length of bar between gauges and concrete, mm. */
  freeLength_mm: 30,
  /** Standard deviation of the noise: share of the peak, and mm. */
  loadNoise: 0.002,
  gaugeNoise_mm: 0.002,
  /** Displacement taken up by grips and gauges before load comes on, mm. */
  seating_mm: 0.06,
  /**
   * Within these errors a sound reduction recovers peak load, slip at peak, energy and residual
   * load.
   */
  statedErrors: { peak: 0.01, slip: 0.06, energy: 0.03, residual: 0.03 },
} as const;

/** Load share at a slip, by the stated truth. */
export function trueLoadShare(slipRatio: number): number {
  if (slipRatio <= 1) return Math.max(0, slipRatio) ** CURVE_TRUTH.ascentExponent;
  return Math.max(CURVE_TRUTH.residualShare, 1 - CURVE_TRUTH.descentSlope * (slipRatio - 1));
}

/** An invented record, as a logger file, with what is true about it. */
export interface DemonstrationCurve {
  readonly test_id: string;
  readonly file: string;
  readonly csv: string;
  readonly peak_load_kN: number;
  readonly slip_at_peak_mm: number;
  readonly hasLoop: boolean;
}

/**
 * Invented records for the first bond failure of each confined series: a few dozen, with noise,
 * offset, seating and unloading loops.
 */
export function demonstrationCurves(
  tests: ReadonlyArray<TestRowInput>,
  seed: number | string,
): DemonstrationCurve[] {
  const seen = new Set<string>();
  const curves: DemonstrationCurve[] = [];
  for (const test of tests) {
    if (
      test.setup !== "confined_tension" ||
      test.failure_mode !== "bond" ||
      (test.excluded ?? null) !== null ||
      (test.slip_at_peak_mm ?? null) === null ||
      seen.has(test.series_id)
    )
      continue;
    seen.add(test.series_id);
    curves.push(recordOf(test, seed, curves.length % 3 === 2));
  }
  return curves;
}

function recordOf(test: TestRowInput, seed: number | string, hasLoop: boolean): DemonstrationCurve {
  const random = createRandom(seed).fork("curves").fork(test.test_id);
  const peak = test.peak_load_kN;
  const s1 = test.slip_at_peak_mm ?? 1;
  const offset = 0.01 * peak * (random.uniform() - 0.5);
  const tilt = 0.15 * s1 * (random.uniform() - 0.5);
  const stiffness =
    ((test.bar_modulus_GPa ?? 200) * (test.bar_area_mm2 ?? 200)) / CURVE_TRUTH.freeLength_mm;
  const rows: number[][] = [];
  const log = (load: number, slip: number, seating: number): void => {
    const loaded = slip + load / stiffness + seating;
    const free = Math.max(0, slip - 0.05 * s1 * (load / peak));
    const gauge = (value: number): number =>
      Math.round(1000 * (value + CURVE_TRUTH.gaugeNoise_mm * random.normal())) / 1000;
    rows.push([
      rows.length,
      Math.round(1000 * (load + offset + CURVE_TRUTH.loadNoise * peak * random.normal())) / 1000,
      gauge(loaded + (tilt * load) / peak),
      gauge(loaded - (tilt * load) / peak),
      gauge(free),
    ]);
  };
  for (let i = 0; i < 12; i += 1) log(0, 0, 0);
  for (let i = 1; i <= 4; i += 1) log(0, 0, (CURVE_TRUTH.seating_mm * i) / 4);
  // Evenly in load up to 0.8 of the peak, as a jack under load control does; then evenly in slip.
  const ascent = Array.from({ length: 30 }, (_, i) => (0.8 * (i + 1)) / 30);
  ascent.forEach((share, i) => {
    log(share * peak, s1 * share ** (1 / CURVE_TRUTH.ascentExponent), CURVE_TRUTH.seating_mm);
    if (hasLoop && i === 20) {
      const slip = s1 * share ** (1 / CURVE_TRUTH.ascentExponent);
      for (const down of [0.75, 0.5, 0.3, 0.5, 0.75, 0.95])
        log(share * peak * down, slip * (0.9 + 0.1 * down), CURVE_TRUTH.seating_mm);
    }
  });
  const from = 0.8 ** (1 / CURVE_TRUTH.ascentExponent);
  for (let i = 1; i <= 20; i += 1) {
    const ratio = from + ((1 - from) * i) / 20;
    log(trueLoadShare(ratio) * peak, ratio * s1, CURVE_TRUTH.seating_mm);
  }
  // Loggers are set to take more readings around the peak.
  for (let i = 1; i <= 100; i += 1) {
    const ratio = 1 + (CURVE_TRUTH.endRatio - 1) * (i / 100) ** 2;
    log(trueLoadShare(ratio) * peak, ratio * s1, CURVE_TRUTH.seating_mm);
  }
  return {
    test_id: test.test_id,
    file: `curves/${test.test_id}.csv`,
    csv: csvText(["time_s", "load_kN", "loaded_end_1_mm", "loaded_end_2_mm", "free_end_mm"], rows),
    peak_load_kN: peak,
    slip_at_peak_mm: s1,
    hasLoop,
  };
}
