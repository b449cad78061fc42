import { describe, expect, it } from "vitest";
import {
  curveValuesCsv,
  parseCurve,
  reduceCurve,
  type LoadCurve,
} from "../../kernel-lib/src/curves";

/**
 * A made-up record of 200 readings: a rise to 50 kN at 1 mm, then a fall; the loaded end moves a
 * little more.
 */
const TIMES = Array.from({ length: 200 }, (_, i) => i / 2);
const slipOf = (i: number): number => i * 0.02;
const loadOf = (i: number): number =>
  slipOf(i) < 1 ? 50 * slipOf(i) ** 0.4 : Math.max(20, 50 * (1 - (slipOf(i) - 1) / 4));
const record = (
  change: Partial<Record<"load" | "loaded" | "free", (value: number, i: number) => number>> = {},
): LoadCurve => {
  const of = (what: "load" | "loaded" | "free", value: (i: number) => number): Float64Array =>
    Float64Array.from(TIMES, (_, i) => change[what]?.(value(i), i) ?? value(i));
  return {
    time_s: Float64Array.from(TIMES),
    load_kN: of("load", loadOf),
    gauges: [
      {
        name: "loaded_mm",
        place: "loaded_end",
        values_mm: of("loaded", (i) => slipOf(i) + loadOf(i) / 250),
      },
      { name: "free_mm", place: "free_end", values_mm: of("free", slipOf) },
    ],
  };
};
const flagsOf = (curve: LoadCurve): string => reduceCurve(curve).flags.join("\n");

describe("a sound record", () => {
  it("raises none of these flags", () => {
    expect(flagsOf(record())).not.toMatch(/stands|sign|begins|falls|goes back|in N\?/);
    // A coarse load cell repeats its readings all the way, a free end rests until the bond gives
    // way: neither is a fault.
    expect(flagsOf(record({ load: (value) => Math.round(value) }))).not.toMatch(/clipped/);
    expect(flagsOf(record({ free: (value, i) => (i < 40 ? 0 : value) }))).not.toMatch(
      /stands still/,
    );
  });
});

describe("faults of loggers and gauges", () => {
  it("a load counted negative is refused with the way out, and its turned sign gives the same values to the bit", () => {
    const negative = record({ load: (value) => -value });
    expect(() => reduceCurve(negative)).toThrow(
      /goes down to -4\d\.\d+ kN and up to 0\.000 kN only, expected tension as positive.*--turn load/,
    );
    const { flags, ...turned } = reduceCurve(negative, { turn: ["load"] });
    const { flags: _, ...plain } = reduceCurve(record());
    expect(turned).toEqual(plain);
    expect(flags[0]).toBe("the sign of the load was turned");
  });

  it("a displacement counted negative gives no slip, stiffness or energy, and no number in the file of values", () => {
    const negative = record({ loaded: (value) => -value });
    const reduction = reduceCurve(negative);
    expect(reduction).toMatchObject({
      slip_at_peak_mm: NaN,
      initial_stiffness_kN_mm: NaN,
      adhesion_load_kN: null,
      residual_load_kN: null,
      energy_to_peak_kNmm: NaN,
      energy_kNmm: NaN,
    });
    expect(reduction.peak_load_kN).toBe(reduceCurve(record()).peak_load_kN);
    expect(reduction.flags.join()).toMatch(
      /displacement falls by 1\.2 mm while the load rises.*--turn displacement/,
    );
    expect(
      curveValuesCsv([
        { test_id: "A", file: "a.csv", sha256: "0", reduction, freeEndSlip_mm: null },
      ]).split("\n")[1],
    ).toMatch(/^A,a\.csv,0,49\.\d+,,,,,,,/);
    expect(reduceCurve(negative, { turn: ["displacement"] }).slip_at_peak_mm).toBe(
      reduceCurve(record()).slip_at_peak_mm,
    );
  });

  it("one of two gauges counted negative is named", () => {
    const curve = record();
    const two: LoadCurve = {
      ...curve,
      gauges: [
        curve.gauges[0]!,
        {
          name: "loaded_2_mm",
          place: "loaded_end",
          values_mm: curve.gauges[0]!.values_mm.map((value) => -0.5 * value),
        },
      ],
    };
    expect(flagsOf(two)).toMatch(
      /gauge loaded_mm moves by 1\.2 mm up to the peak and gauge loaded_2_mm by -0\.60 mm/,
    );
  });

  it("a clipped load, a stuck gauge and a gauge that never moves are named with their readings", () => {
    expect(flagsOf(record({ load: (value) => Math.min(value, 40) }))).toMatch(
      /stands at its highest value, 40 kN, in \d+ readings in a row \(30 to \d+\)/,
    );
    expect(flagsOf(record({ free: (value, i) => (i < 30 ? value : 0.6) }))).toMatch(
      /gauge free_mm stands still at 0\.6 mm in 170 readings in a row \(31 to 200\), while the load changes by 2\d\.\d kN/,
    );
    expect(reduceCurve(record({ loaded: () => 0 }))).toMatchObject({
      slip_at_peak_mm: NaN,
      energy_kNmm: NaN,
    });
  });

  it("a record that begins late, never changes, or holds newtons under the name of kilonewtons", () => {
    const curve = record();
    const late: LoadCurve = {
      time_s: curve.time_s!.slice(20),
      load_kN: curve.load_kN.slice(20),
      gauges: curve.gauges.map((gauge) => ({ ...gauge, values_mm: gauge.values_mm.slice(20) })),
    };
    expect(flagsOf(late)).toMatch(/begins at 34\.\d kN, 70 % of the peak/);
    expect(reduceCurve(late).initial_stiffness_kN_mm).toBeNaN();
    expect(() => reduceCurve(record({ load: () => 5 }))).toThrow(
      "it never changes in 200 readings",
    );
    expect(flagsOf(record({ load: (value) => 1000 * value }))).toMatch(/is the load in N\?/);
  });
});

describe("logger files", () => {
  const file = (header: string, row: (i: number) => string) =>
    parseCurve(
      new TextEncoder().encode(`${header}\n${TIMES.map((_, i) => row(i)).join("\n")}\n`),
      "l.csv",
    );
  const said = ({ diagnostics }: ReturnType<typeof parseCurve>): string =>
    diagnostics.map(({ message }) => message).join("\n");

  it("time that goes back: how often, from where to where, and what was kept", () => {
    const reading = file(
      "time_s,load_kN,slip_mm",
      (i) => `${String(i < 100 ? i : i - 60)},${String(loadOf(i))},${String(slipOf(i))}`,
    );
    expect(said(reading)).toBe(
      "l.csv: the time goes back once, first from 99 s to 40 s at reading 101, expected readings in order of time; they are kept in the order of the file",
    );
    expect(reading.curve?.load_kN.length).toBe(200);
  });
  it("a time of day in place of seconds is left out with one warning, not with every reading", () => {
    const reading = file(
      "time_s,load_kN,slip_mm",
      (i) => `12:00:${String(i % 60).padStart(2, "0")},${String(loadOf(i))},${String(slipOf(i))}`,
    );
    expect(reading.diagnostics.map(({ rule, column, value }) => [rule, column, value])).toEqual([
      ["clock-time", "time_s", "12:00:00"],
    ]);
    expect(reading.curve).toMatchObject({ time_s: null });
    expect(reading.curve?.load_kN.length).toBe(200);
  });
  it("a typeset minus sign is a minus, a dash is not", () => {
    const reading = file(
      "load_kN,slip_mm",
      (i) =>
        `${String(loadOf(i))},${i === 0 ? "\u22120.05" : i === 1 ? "\u20130.03" : String(slipOf(i))}`,
    );
    expect(reading.curve?.gauges[0]?.values_mm[0]).toBe(-0.05);
    expect(reading.diagnostics.map(({ row, value }) => [row, value])).toEqual([[3, "\u20130.03"]]);
  });
  it("says what it found in place of a column of force, and of an empty file that it is empty", () => {
    expect(said(file("0.0,0.0,0.0", (i) => `${String(i)},1,2`))).toContain(
      'l.csv has 0 columns of force (row 1 reads "0.0", "0.0", "0.0"), expected exactly one',
    );
    expect(said(file("load_kN,Load 2 (kN),slip_mm", () => "1,2,3"))).toContain(
      'l.csv has 2 columns of force ("load_kN", "Load 2 (kN)")',
    );
    expect(said(parseCurve(new Uint8Array(), "l.csv"))).toBe(
      "l.csv is empty, expected a header and readings",
    );
  });
});
