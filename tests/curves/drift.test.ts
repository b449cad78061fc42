import { describe, expect, it } from "vitest";
import { reduceCurve, type LoadCurve, type ReductionOptions } from "../../kernel-lib/src/curves";
import { createRandom } from "../../kernel-lib/src/statistics/random";

const SECONDS = { rest: 120, test: 300, after: 60 };
const TRUTH = { peak: 50, slipAtPeak: 1.2 };

/**
 * An invented record: two minutes at rest, a parabola to the peak and back to zero load while the
 * slip goes on, a minute at rest.
 */
function record(loadDrift_kN_s: number, gaugeDrift_mm_s: number, seed = "drift"): LoadCurve {
  const random = createRandom(seed);
  const n = SECONDS.rest + SECONDS.test + SECONDS.after;
  const time_s = Float64Array.from({ length: n }, (_, i) => i);
  const x = time_s.map((t) => Math.min(1, Math.max(0, (t - SECONDS.rest) / SECONDS.test)));
  const load_kN = time_s.map(
    (t, i) =>
      TRUTH.peak * 4 * (x[i] ?? 0) * (1 - (x[i] ?? 0)) +
      loadDrift_kN_s * t +
      0.02 * random.normal(),
  );
  const values_mm = time_s.map(
    (t, i) => 2 * TRUTH.slipAtPeak * (x[i] ?? 0) + gaugeDrift_mm_s * t + 0.001 * random.normal(),
  );
  return { time_s, load_kN, gauges: [{ name: "free", place: "free_end", values_mm }] };
}
const reduce = (curve: LoadCurve, drift?: ReductionOptions["drift"]) =>
  reduceCurve(curve, { ...(drift === undefined ? {} : { drift }), seatingShare: 0 });

describe("slow drift", () => {
  it("is pointed out and left by default, subtracted when a rule is named, and given back by its rate", () => {
    const curve = record(0.01, 0.0005);
    const left = reduce(curve);
    expect(left.flags.join("; ")).toMatch(
      /the load drifts by 4\.\d kN over the record.*left as it is \(rule none\).*mean displacement drifts/,
    );
    expect([left.drift_kN_s, left.drift_mm_s]).toEqual([0, 0]);
    expect(left.peak_load_kN).toBeGreaterThan(TRUTH.peak + 1);
    const mended = reduce(curve, "rest-before");
    expect(mended.flags.join("; ")).toMatch(/it was subtracted \(rule rest-before\)/);
    expect(Math.abs(mended.peak_load_kN / TRUTH.peak - 1)).toBeLessThan(0.005);
    expect(Math.abs(mended.slip_at_peak_mm / TRUTH.slipAtPeak - 1)).toBeLessThan(0.03);
    expect(mended.drift_kN_s).toBeCloseTo(0.01, 3);
    expect(mended.drift_mm_s).toBeCloseTo(0.0005, 4);
  });

  it("by the rests before and after, where the record has both", () => {
    const mended = reduce(record(0.01, 0), "rests");
    expect(Math.abs(mended.peak_load_kN / TRUTH.peak - 1)).toBeLessThan(0.005);
    expect(mended.drift_kN_s).toBeCloseTo(0.01, 4);
  });

  it("a steady record has none, and a rule that finds none changes no bit", () => {
    for (let k = 0; k < 40; k += 1) {
      const curve = record(0, 0, `steady ${String(k)}`);
      const [plain, asked] = [reduce(curve), reduce(curve, "rest-before")];
      expect(plain.flags.join()).not.toContain("drifts");
      expect(asked.load_kN).toEqual(plain.load_kN);
    }
  });

  it("seating during the rest is no drift, and too short a rest is said", () => {
    const curve = record(0, 0);
    const seated: LoadCurve = {
      ...curve,
      gauges: curve.gauges.map((gauge) => ({
        ...gauge,
        values_mm: gauge.values_mm.map((value, i) => value + (i > 100 ? 0.2 : 0)),
      })),
    };
    expect(reduce(seated, "rest-before").drift_mm_s).toBe(0);
    const short: LoadCurve = {
      time_s: curve.time_s!.slice(115),
      load_kN: curve.load_kN.slice(115),
      gauges: curve.gauges.map((gauge) => ({ ...gauge, values_mm: gauge.values_mm.slice(115) })),
    };
    expect(reduce(short, "rest-before").flags.join()).toContain(
      "the drift of the load cannot be judged",
    );
  });
});
