import { describe, expect, it } from "vitest";
import {
  accountOf,
  compare,
  groupRatios,
  modeTable,
  type ComparisonSettings,
} from "../../kernel-lib/src/comparison";
import type { TestRowInput } from "../../kernel-lib/src/dataset";
import { handChecksOf } from "../../kernel-lib/src/exports/workbook";
import { code } from "../../kernel-lib/src/provisions";
import { randomRows, table } from "../provisions/specimens";
import { BOTH as BOTH_LOADS } from "../provisions/both-loads";

/** The resultant by ACI 318-19 17.8 is 39.948310 kN (Python). */
const BOTH: Partial<TestRowInput> = { ...BOTH_LOADS, failure_mode: "bond" };
const compared = (
  rows: readonly Partial<TestRowInput>[],
  id = "aci318-19",
  settings: ComparisonSettings = {},
) => compare(table(...rows), code(id), settings);

describe("a test with tension and shear", () => {
  it.each(["observed mode", "governing mode"] as const)(
    "has one ratio, resultant over resultant, in its own group (%s)",
    (capacityOf) => {
      const { evidence, notJudged } = compared([BOTH], "aci318-19", { capacityOf });
      expect(notJudged).toEqual([]);
      expect(evidence).toHaveLength(1);
      const [one] = evidence;
      expect([one!.mode, one!.column, one!.bound, one!.load]).toEqual([
        "interaction",
        -1,
        false,
        50,
      ]);
      expect(one!.ratio).toBeCloseTo(50 / 39.948309529, 9);
    },
  );

  it("belongs to no group of one mode, and its clause groups it", () => {
    const rows = [
      BOTH,
      { ...BOTH, load_angle_deg: 60, failure_mode: "bar_shear" as const },
      {
        ...BOTH,
        setup: "unconfined_tension" as const,
        action: "tension" as const,
        load_angle_deg: null,
      },
    ];
    const comparison = compared(rows);
    const of = (by: string[]): [string, number[]][] =>
      groupRatios(comparison, by).map(({ label, evidence }) => [
        label,
        evidence.map(({ row }) => row),
      ]);
    expect(of(["mode"])).toEqual([
      ["bar rupture", [2]],
      ["bond", [2]],
      ["concrete breakout", [2]],
      ["interaction", [0, 1]],
    ]);
    expect(of(["provision"]).find(([, members]) => members.includes(0))).toEqual([
      "aci318-19/17.8",
      [0, 1],
    ]);
    const account = accountOf(comparison);
    expect(account.read).toBe(
      account.judged.reduce((sum, { failures, lowerBounds }) => sum + failures + lowerBounds, 0),
    );
    expect(modeTable(comparison).predicted).toEqual(["bond", "interaction"]);
  });

  it.each<[string, Partial<TestRowInput>, string, string, RegExp]>([
    [
      "without an angle",
      { load_angle_deg: null },
      "aci318-19",
      "input missing",
      /load_angle_deg is blank/,
    ],
    [
      "whose mode is unknown",
      { failure_mode: "unknown" },
      "aci318-19",
      "input missing",
      /failure mode is unknown/,
    ],
    [
      "by a guide without an interaction",
      {},
      "aci440.1r-15",
      "capacity of another mode",
      /states no interaction/,
    ],
    [
      "whose bar shear strength is the measured one",
      { bar_shear_strength_specified_MPa: null, bar_shear_strength_MPa: 150 },
      "aci318-19",
      "input substituted",
      /bar_shear_strength_specified_MPa is blank/,
    ],
    [
      "shallower than 4 diameters",
      { embedment_mm: 48 },
      "aci318-19",
      "outside stated range",
      /17\.3\.3/,
    ],
    [
      "of a bar cast in without a head",
      { installation: "cast_in" },
      "aci318-19",
      "set-up does not test this",
      /cast in bars/,
    ],
  ])("%s is not judged, with the reason", (_, row, id, status, reason) => {
    const { evidence, notJudged, unused } = compared([{ ...BOTH, ...row }], id);
    expect(evidence).toEqual([]);
    expect([notJudged.length, unused.length, unused[0]?.status]).toEqual([1, 1, status]);
    expect(unused[0]?.reason).toMatch(reason);
  });

  it("by a code that states nothing at the level is not judged either", () => {
    expect(
      compared([BOTH], "aci318-19", { level: "expected" }).unused.map(({ reason }) => reason),
    ).toEqual(["aci318-19 states no capacity in tension at the expected level"]);
  });

  it("that was stopped or broke in its grip is a lower bound", () => {
    for (const failure_mode of ["stopped", "rupture_at_grip"] as const)
      expect(
        compared([{ ...BOTH, failure_mode }]).evidence.map(({ mode, bound }) => [mode, bound]),
      ).toEqual([["interaction", true]]);
  });

  it("gives the hand check of the resultant", () => {
    const comparison = compared([BOTH]);
    const [check] = handChecksOf(comparison, comparison.evidence);
    expect([check!.trace.provision.id, check!.trace.capacity_N / 1000]).toEqual([
      "aci318-19/17.8",
      comparison.evidence[0]!.capacity,
    ]);
  });
});

describe("tests with one load", () => {
  it("have the same ratios, bit for bit, beside tests with both", () => {
    const modes = ["bond", "concrete_breakout", "bar_rupture", "stopped"] as const;
    const rows = randomRows(5, 80).map((row, k) => ({
      ...row,
      failure_mode: modes[k % modes.length]!,
    }));
    for (const capacityOf of ["observed mode", "governing mode"] as const) {
      const [alone, beside] = [rows, rows.flatMap((row) => [row, BOTH])].map((of) =>
        compared(of, "aci318-19", { capacityOf, scope: "all" }),
      );
      expect(alone!.evidence.length).toBeGreaterThan(20);
      expect(
        beside!.evidence
          .filter(({ mode }) => mode !== "interaction")
          .map((one) => ({ ...one, row: one.row / 2 })),
      ).toEqual([...alone!.evidence]);
      expect(beside!.notJudged.map((one) => ({ ...one, row: one.row / 2 }))).toEqual([
        ...alone!.notJudged,
      ]);
    }
  });
});

describe("installation columns", () => {
  it("group and part tests like any other category", () => {
    const single = {
      ...BOTH,
      setup: "unconfined_tension",
      action: "tension",
      load_angle_deg: null,
    } as const;
    const rows = (["down", "overhead"] as const).flatMap((installation_direction, d) =>
      Array.from({ length: 12 }, (_, k) => ({
        ...single,
        installation_direction,
        series_id: `${installation_direction}${Math.floor(k / 3)}`,
        peak_load_kN: (d === 0 ? 90 : 60) + (k % 3) + k / 7,
      })),
    );
    const comparison = compared(rows);
    expect(
      groupRatios(comparison, ["mode", "installation_direction"])
        .filter(({ n }) => n > 0)
        .map(({ label, n }) => [label, n]),
    ).toEqual([
      ["bond, installation direction down", 12],
      ["bond, installation direction overhead", 12],
    ]);
    // The mean differs by half: the column is found without being asked for.
    const [found] = groupRatios(comparison, ["mode"]).filter(({ n }) => n > 0);
    expect(found!.inGeneral.cellColumns).toContain("installation_direction");
    expect(
      groupRatios(comparison, ["mode"], { cells: ["installation_direction"] })
        .filter(({ n }) => n > 0)[0]!
        .inGeneral.cells.map(({ cell }) => cell)
        .sort(),
    ).toEqual(["installation direction down", "installation direction overhead"]);
  });
});
