import { describe, expect, it } from "vitest";
import { driftTrial, type LoadCurve } from "../../kernel-lib/src/curves";

/** An invented record: a parabola to 50 kN and back in 300 readings, the slip going on. */
function record(): LoadCurve {
  const n = 300;
  const x = Float64Array.from({ length: n }, (_, i) => i / (n - 1));
  return {
    time_s: null,
    load_kN: x.map((at) => 50 * 4 * at * (1 - at)),
    gauges: [{ name: "free", place: "free_end", values_mm: x.map((at) => 2.4 * at) }],
  };
}

describe("a known drift", () => {
  it("left in, raises the peak by what it comes to there less its mean at rest", () => {
    const [left, off] = driftTrial(record(), { share: 0.03, rest: 120 });
    // By hand: the drift is 1.5 kN in 420 s and the peak is reading 120 + 150. The rest is seen
    // until the drift exceeds 0.5 % of the range of the load (0.25 kN, 71 readings); its mean, the
    // drift at reading 35.5, is the zero.
    const expected = (0.03 * (120 + 150 - 35.5)) / 420;
    expect(left!.rule).toBe("none");
    expect(left!.error).toBeGreaterThan(expected - 0.0005);
    expect(left!.error).toBeLessThan(expected + 0.0005);
    expect(left!.reduction.drift_kN_s).toBe(0);
    expect(off!.rule).toBe("rest-before");
    expect(Math.abs(off!.error)).toBeLessThan(0.002);
    // 3 % of 50 kN over 420 s.
    expect(off!.reduction.drift_kN_s).toBeCloseTo((0.03 * 50) / 420, 4);
  });

  it("of a size that cannot be is refused", () => {
    expect(() => driftTrial(record(), { share: 3 })).toThrow("expected -1 to 1");
    expect(() => driftTrial(record(), { rest: 5 })).toThrow("from 20");
  });
});
