import { describe, expect, it } from "vitest";
import {
  bondSlipCurve,
  lossOfAdhesion,
  noiseOf,
  parseCurve,
  reduceCurve,
  smooth,
  type LoadCurve,
} from "../../kernel-lib/src/curves";
import {
  CURVE_TRUTH,
  demonstrationCurves,
  generateDemonstration,
} from "../../kernel-lib/src/demonstration";
import { createRandom } from "../../kernel-lib/src/statistics/random";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Energy up to a slip ratio, kN mm: the integral of the law that the demonstration states. */
function trueEnergy(peak_kN: number, slipAtPeak_mm: number, slipRatio: number): number {
  const { ascentExponent, descentSlope, residualShare } = CURVE_TRUTH;
  const ascent = Math.min(1, slipRatio) ** (1 + ascentExponent) / (1 + ascentExponent);
  const knee = 1 + (1 - residualShare) / descentSlope;
  const x = Math.max(0, Math.min(slipRatio, knee) - 1);
  const beyond = residualShare * Math.max(0, slipRatio - knee);
  return peak_kN * slipAtPeak_mm * (ascent + x - (descentSlope * x * x) / 2 + beyond);
}

describe("the invented records", () => {
  const { tests } = generateDemonstration(2026);
  const curves = demonstrationCurves(tests, 2026);
  const testOf = new Map(tests.map((test) => [test.test_id, test]));

  it("are a few dozen", () => {
    expect(curves.length).toBeGreaterThanOrEqual(24);
    expect(curves.length).toBeLessThanOrEqual(60);
  });

  it.each(curves.map((curve) => [curve.test_id, curve] as const))(
    "%s gives its truth back within the stated errors",
    (_id, truth) => {
      const test = testOf.get(truth.test_id);
      const reading = parseCurve(bytes(truth.csv), truth.file);
      expect(reading.diagnostics).toEqual([]);
      const reduced = reduceCurve(reading.curve!, {
        freeLength_mm: CURVE_TRUTH.freeLength_mm,
        barModulus_GPa: test!.bar_modulus_GPa!,
        barArea_mm2: test!.bar_area_mm2!,
      });
      const { statedErrors } = CURVE_TRUTH;
      expect(Math.abs(reduced.peak_load_kN / truth.peak_load_kN - 1)).toBeLessThan(
        statedErrors.peak,
      );
      expect(Math.abs(reduced.slip_at_peak_mm / truth.slip_at_peak_mm - 1)).toBeLessThan(
        statedErrors.slip,
      );
      expect(
        Math.abs(
          reduced.energy_kNmm /
            trueEnergy(truth.peak_load_kN, truth.slip_at_peak_mm, CURVE_TRUTH.endRatio) -
            1,
        ),
      ).toBeLessThan(statedErrors.energy);
      expect(
        Math.abs(
          (reduced.residual_load_kN ?? NaN) / (CURVE_TRUTH.residualShare * truth.peak_load_kN) - 1,
        ),
      ).toBeLessThan(statedErrors.residual);
      expect(reduced.unloading_loops).toBe(truth.hasLoop ? 1 : 0);
      expect(Math.abs(reduced.seating_mm - CURVE_TRUTH.seating_mm)).toBeLessThan(0.02);
      expect(reduced.noise_kN / truth.peak_load_kN).toBeLessThan(2 * CURVE_TRUTH.loadNoise);
      // Without the correction for the free length the slip must come out too large.
      expect(reduceCurve(reading.curve!).slip_at_peak_mm).toBeGreaterThan(reduced.slip_at_peak_mm);
    },
  );
});

describe("reduction rules on curves known by hand", () => {
  const curve = (load: number[], slip: number[]): LoadCurve => ({
    time_s: null,
    load_kN: Float64Array.from(load),
    gauges: [{ name: "a", place: "free_end", values_mm: Float64Array.from(slip) }],
  });
  const plain = { smoothing: { rule: "none" }, seatingShare: 0 } as const;
  const ramp = Array.from({ length: 41 }, (_, i) => i);

  it("a straight rise to 40 kN at 2 mm, then a fall to 10 kN at 4 mm", () => {
    const reduced = reduceCurve(
      curve(
        [...ramp, ...ramp.slice(1, 31).map((i) => 40 - i)],
        [...ramp.map((i) => i / 20), ...ramp.slice(1, 31).map((i) => 2 + i / 15)],
      ),
      plain,
    );
    expect(reduced.peak_load_kN).toBe(40);
    expect(reduced.slip_at_peak_mm).toBeCloseTo(2, 12);
    expect(reduced.initial_stiffness_kN_mm).toBeCloseTo(20, 10);
    expect(reduced.energy_to_peak_kNmm).toBeCloseTo(40, 10);
    expect(reduced.energy_kNmm).toBeCloseTo(40 + 50, 10);
  });

  it("takes an unloading loop out and says so", () => {
    const loop = [...ramp.slice(0, 21), 15, 10, 5, 10, 15, ...ramp.slice(20)];
    const slip = [...ramp.slice(0, 21), 19.5, 19, 18.5, 19, 19.5, ...ramp.slice(20)].map(
      (i) => i / 20,
    );
    const reduced = reduceCurve(curve(loop, slip), plain);
    expect(reduced.unloading_loops).toBe(1);
    expect(reduced.energy_to_peak_kNmm).toBeCloseTo(40, 10);
    expect(reduced.flags.join()).toMatch(/1 unloading loop was taken out.*|.*still rises/);
  });

  it("loss of adhesion: a bilinear curve crosses the line of 1/1.5 slope where it should", () => {
    // Rise at 100 kN/mm to 30 kN (0.3 mm), then 10 kN/mm to 40 kN (1.3 mm). Nu = 40; slope at 12 kN
    // = 100, line 66.67 s:
    // 66.67 s = 30 + 10 (s - 0.3) -> s = 27 / 56.667 = 0.47647 mm, N = 31.7647 kN.
    const slip = Float64Array.from({ length: 131 }, (_, i) => i / 100);
    const load = slip.map((s) => (s <= 0.3 ? 100 * s : 30 + 10 * (s - 0.3)));
    expect(lossOfAdhesion(slip, load)).toBeCloseTo(540 / 17, 6);
  });

  it("loss of adhesion: a straight curve never crosses, a stiff one starts its line at 0.3 Nu, a higher peak before the crossing counts", () => {
    const slip = Float64Array.from({ length: 101 }, (_, i) => i / 50);
    expect(
      lossOfAdhesion(
        slip,
        slip.map((s) => 20 * s),
      ),
    ).toBeNull();
    // 0.3 Nu = 12 kN at 0.012 mm <= 0.05: line 12 + 666.67 (s - 0.012); plateau of 30 from 0.03 mm,
    // rise to 40 at 2 mm.
    const fine = Float64Array.from({ length: 2001 }, (_, i) => i / 1000);
    const stiff = fine.map((s) => (s <= 0.03 ? 1000 * s : 30 + ((s - 0.03) / 1.97) * 10));
    expect(lossOfAdhesion(fine, stiff)).toBeCloseTo(30.046, 2);
    // Rise to 30, drop to 20, rise to 40: crossing during the drop, the higher load before it is
    // taken.
    const drop = fine.map((s) =>
      s <= 0.3 ? 100 * s : s <= 0.4 ? 30 - 100 * (s - 0.3) : 20 + 12.5 * (s - 0.4),
    );
    expect(lossOfAdhesion(fine, drop)).toBeCloseTo(30, 1);
  });

  it("flags a single gauge, a gauge that never moves, a record that still rises", () => {
    const still: LoadCurve = {
      time_s: null,
      load_kN: Float64Array.from(ramp),
      gauges: [
        { name: "a", place: "loaded_end", values_mm: Float64Array.from(ramp.map((i) => i / 20)) },
        { name: "b", place: "loaded_end", values_mm: new Float64Array(41) },
      ],
    };
    expect(reduceCurve(still).flags.join("; ")).toMatch(
      /still rises.*b differs from the mean.*b never moves.*elongation of the free length is not subtracted/,
    );
    expect(reduceCurve(curve(ramp, ramp)).flags.join()).toMatch(/single gauge/);
    expect(() => reduceCurve(curve(new Array<number>(20).fill(0), ramp.slice(0, 20)))).toThrow(
      /no load above the noise/,
    );
  });

  it("takes a preload toe off, and says so when it is large", () => {
    // Half a millimetre of seating at rest, then 40 kN at 2 mm: the toe is a quarter of the slip.
    const reduced = reduceCurve(
      curve(
        [...new Array<number>(11).fill(0), ...ramp.slice(1)],
        [
          ...Array.from({ length: 11 }, (_, i) => i / 20),
          ...ramp.slice(1).map((i) => 0.5 + i / 20),
        ],
      ),
      { smoothing: { rule: "none" }, seatingShare: 0.02 },
    );
    expect(reduced.seating_mm).toBeCloseTo(0.55, 10);
    expect(reduced.slip_at_peak_mm).toBeCloseTo(1.95, 10);
    expect(reduced.flags.join()).toContain(
      "the seating of 0.55 mm that was subtracted is more than 20 % of the slip at peak",
    );
  });

  it("bond stress: 1 kN on pi x 10 mm x 31.831 mm is 1 MPa", () => {
    expect(
      bondSlipCurve({ slip_mm: Float64Array.of(0), load_kN: Float64Array.of(1) }, 10, 100 / Math.PI)
        .bond_stress_MPa[0],
    ).toBeCloseTo(1, 12);
  });
});

describe("smoothing and noise", () => {
  it("medians and means of windows that shrink at the ends", () => {
    expect([
      ...smooth(Float64Array.of(1, 9, 2, 3, 4), { rule: "moving-median", points: 3 }),
    ]).toEqual([1, 2, 3, 3, 4]);
    expect([...smooth(Float64Array.of(1, 2, 6), { rule: "moving-mean", points: 3 })]).toEqual([
      1, 3, 6,
    ]);
    expect(() => smooth(Float64Array.of(1), { rule: "moving-mean", points: 2 })).toThrow(/odd/);
  });

  it("finds the noise on a bent record", () => {
    const random = createRandom("noise");
    const record = Float64Array.from(
      { length: 4000 },
      (_, i) => (i / 400) ** 2 + 0.05 * random.normal(),
    );
    expect(noiseOf(record)).toBeGreaterThan(0.047);
    expect(noiseOf(record)).toBeLessThan(0.053);
  });
});
