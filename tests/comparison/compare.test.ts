import { describe, expect, it } from "vitest";
import { compare, groupRatios, evidenceOf } from "../../kernel-lib/src/comparison";
import { code } from "../../kernel-lib/src/provisions";
import { table } from "../provisions/specimens";

const EXPECTED = {
  level: "expected",
  lowerBounds: "stopped early",
  options: { mean_bond_stress: 10 },
} as const;
// By hand: 10 MPa x pi x 16 mm x 100 mm = 50.2655 kN; rupture 199 mm2 x 900 MPa = 179.1 kN.
const BAR = { bar_diameter_mm: 16, embedment_mm: 100, cracked: "no" } as const;
const bondModel = code("uniform-bond-1998");

describe("ratios", () => {
  it("are peak load over the capacity of the observed mode", () => {
    const { evidence } = compare(table({ ...BAR, peak_load_kN: 60 }), bondModel, EXPECTED);
    expect(evidence.find(({ mode }) => mode === "bond")).toMatchObject({ bound: false });
    expect(evidence.find(({ mode }) => mode === "bond")?.ratio).toBeCloseTo(
      60 / (Math.PI * 16),
      12,
    );
    // A bond failure bounds rupture of the bar from below.
    expect(evidence.find(({ mode }) => mode === "bar_rupture")).toMatchObject({ bound: true });
    expect(evidence.find(({ mode }) => mode === "bar_rupture")?.ratio).toBeCloseTo(60 / 179.1, 12);
  });

  it("of the governing way use the least capacity, once a test", () => {
    const { evidence } = compare(
      table({ ...BAR, peak_load_kN: 190, failure_mode: "bar_rupture" }),
      bondModel,
      { ...EXPECTED, capacityOf: "governing mode" },
    );
    expect(evidence.map(({ ratio }) => ratio)).toEqual([expect.closeTo(190 / (Math.PI * 16), 12)]);
  });

  it("never come from an excluded row or an unknown mode, and each says why", () => {
    const { evidence, unused } = compare(
      table(
        { ...BAR },
        { ...BAR, excluded: "hole not cleaned" },
        { ...BAR, failure_mode: "unknown" },
      ),
      bondModel,
      EXPECTED,
    );
    expect(new Set(evidence.map(({ row }) => row))).toEqual(new Set([0]));
    expect(unused).toEqual([
      { row: 1, status: "excluded", reason: "hole not cleaned" },
      { row: 2, status: "input missing", reason: "the failure mode is unknown" },
    ]);
  });
});

describe("the factor on confined bond", () => {
  const rows = table(
    { ...BAR, setup: "confined_tension" },
    { ...BAR, setup: "unconfined_tension" },
  );
  const ratios = (factor?: number) =>
    compare(
      rows,
      bondModel,
      factor === undefined ? EXPECTED : { ...EXPECTED, confinedBondFactor: factor },
    ).evidence;

  it("multiplies the load of confined tests in bond evidence only", () => {
    ratios(0.75).forEach((one, i) => {
      const plain = ratios(1)[i]!;
      expect(one.ratio / plain.ratio).toBeCloseTo(
        one.row === 0 && one.mode === "bond" ? 0.75 : 1,
        12,
      );
      expect(one.ratio).toBeCloseTo(one.load / one.capacity, 12);
    });
    // The bond ratio of both; the confined test is no anchor whose bar rupture the model predicts.
    expect(ratios(0.75).map(({ row, mode }) => [row, mode])).toEqual([
      [0, "bond"],
      [1, "bond"],
      [1, "bar_rupture"],
    ]);
  });

  it("is not stated by default: a confined test then judges no bond of an anchor", () => {
    expect(ratios().map(({ row }) => row)).toEqual([1, 1]);
  });

  it.each([0, -1, NaN, Infinity])("refuses %d", (factor) => {
    expect(() => ratios(factor)).toThrow(/confinedBondFactor .* expected a positive finite number/);
  });
});

describe("what a failure tells of another mode", () => {
  it.each([
    ["bond", "bond", "value", "value"],
    ["bond", "bar_rupture", "lower bound", "lower bound"],
    ["bond", "concrete_breakout", "nothing", "lower bound"],
    ["rupture_at_grip", "bar_rupture", "lower bound", "lower bound"],
    ["bar_rupture", "bond", "lower bound", "lower bound"],
    ["unknown", "bond", "nothing", "nothing"],
  ] as const)(
    "%s of %s: %s as stated, %s when every mode competes",
    (observed, studied, stated, every) => {
      expect([
        evidenceOf(observed, [studied], "stopped early"),
        evidenceOf(observed, [studied], "used"),
      ]).toEqual([stated, every]);
    },
  );
});

describe("groups", () => {
  // Ratios 0.9, 1, 1.1, 1.2, 1.3 of pi x 16 kN.
  const loads = [0.9, 1.0, 1.1, 1.2, 1.3];
  const rows = loads.map((ratio) => ({ ...BAR, peak_load_kN: ratio * Math.PI * 16 }));
  const group = (of: typeof rows) =>
    groupRatios(compare(table(...of), bondModel, EXPECTED), ["mode"]).find(
      ({ by }) => by["mode"] === "bond",
    )!;

  it("give mean, SD and the tolerance factor of the non-central t, and no verdict against a mean model", () => {
    const {
      n,
      mean,
      sd,
      k,
      asTested: { lower, verdict },
    } = group(rows);
    // By hand: mean 1.1, SD sqrt(0.1 / 4).
    expect([n, mean, sd]).toEqual([
      5,
      expect.closeTo(1.1, 12),
      expect.closeTo(Math.sqrt(0.025), 12),
    ]);
    // R: qt(.9, 4, qnorm(.95) * sqrt(5)) / sqrt(5) = 3.399834
    expect(k).toBeCloseTo(3.399834, 5);
    // A model of means: a 5 % fractile of 1 is no criterion for it.
    expect([lower, verdict]).toEqual([null, "no criterion"]);
  });

  it("do not depend on the order of the rows", () => {
    const [forward, backward] = [group(rows), group([...rows].reverse())];
    for (const name of ["mean", "sd", "k", "meanMinus3Sd", "min"] as const)
      expect(backward[name]).toBeCloseTo(forward[name] ?? NaN, 12);
  });
});
