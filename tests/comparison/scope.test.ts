import { describe, expect, it } from "vitest";
import { compare, type ComparisonSettings, type Status } from "../../kernel-lib/src/comparison";
import { TestTable, type TestRowInput } from "../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";
import { code } from "../../kernel-lib/src/provisions";
import { table } from "../provisions/specimens";

/** Status of the pair of a test and the mode it failed in. */
function statusOf(
  row: Partial<TestRowInput>,
  id: string,
  settings: ComparisonSettings = {},
): { status: Status; reason: string; value: string } {
  const { evidence, notJudged } = compare(table(row), code(id), settings);
  const judged = evidence.filter(({ bound }) => !bound).length;
  // A test that is not judged in the mode it failed in bounds no other mode either.
  if (judged === 0) expect(evidence).toEqual([]);
  return (
    (judged === 0 ? notJudged.find(({ bound }) => !bound) : undefined) ?? {
      status: "judged",
      reason: "",
      value: "",
    }
  );
}

// 16 mm bars: embedments of 3, 5 and 20 diameters are 48, 80 and 320 mm.
const anchor: Partial<TestRowInput> = {
  bar_diameter_mm: 16,
  embedment_mm: 128,
  failure_mode: "bond",
};
const beam: Partial<TestRowInput> = {
  ...anchor,
  installation: "cast_in",
  setup: "hinged_beam",
  cover_mm: 40,
  embedment_mm: 320,
};
const steel = { bar_material: "steel", bar_surface: "ribbed" } as const;

describe("the status of a test and a provision, fixtures judged by hand from what each clause says of itself (from memory)", () => {
  it.each<[string, Partial<TestRowInput>, string, ComparisonSettings, Status, RegExp]>([
    ["an adhesive anchor free to fail", anchor, "aci318-19", {}, "judged", /^$/],
    [
      "a confined test of one",
      { ...anchor, setup: "confined_tension" },
      "aci318-19",
      {},
      "set-up does not test this",
      /17\.6\.5: .*not by confined tension/,
    ],
    [
      "the same with a stated factor on confined bond",
      { ...anchor, setup: "confined_tension" },
      "aci318-19",
      { confinedBondFactor: 0.75 },
      "judged",
      /^$/,
    ],
    [
      "a bond specimen of a cast-in bar against an anchor provision",
      { ...anchor, installation: "cast_in", setup: "pullout_block" },
      "aci318-19",
      {},
      "set-up does not test this",
      /not by pullout block/,
    ],
    [
      "a straight cast-in bar pulled like an anchor",
      { ...anchor, installation: "cast_in" },
      "uniform-bond-1998",
      { level: "expected" },
      "set-up does not test this",
      /post installed bars, not by cast in bars/,
    ],
    [
      "an anchor shallower than the 4 diameters of 17.3.3",
      { ...anchor, embedment_mm: 48 },
      "aci318-19",
      {},
      "outside stated range",
      /^17\.3\.3: /,
    ],
    [
      "a beam test of an FRP bar at the 20 diameters of 440.1R",
      beam,
      "aci440.1r-15",
      {},
      "judged",
      /^$/,
    ],
    [
      "one at 5 diameters, which the guide covers by its linear reduction",
      { ...beam, embedment_mm: 80 },
      "aci440.1r-15",
      {},
      "judged",
      /^$/,
    ],
    [
      "one at 5 diameters against a guide that says nothing of it",
      { ...beam, embedment_mm: 80 },
      "aci440.11-22",
      {},
      "outside stated range",
      /diameters/,
    ],
    [
      "one at 5 diameters of which no cover is known: a cover would not bring it into range",
      { ...beam, embedment_mm: 80, cover_mm: null },
      "aci440.11-22",
      {},
      "outside stated range",
      /diameters/,
    ],
    [
      "one at 20 diameters of which no cover is known",
      { ...beam, cover_mm: null },
      "aci440.1r-15",
      {},
      "input missing",
      /cover_mm/,
    ],
    [
      "a steel bar against a guide for FRP",
      { ...beam, ...steel },
      "aci440.1r-15",
      {},
      "outside stated range",
      /FRP bars only/,
    ],
    [
      "a drilled-in bar against a development provision",
      { ...anchor, cover_mm: 40 },
      "aci440.1r-15",
      {},
      "set-up does not test this",
      /not by unconfined tension/,
    ],
    [
      "a pull-out block against a provision fitted to beam tests",
      { ...beam, setup: "pullout_block" },
      "wambeke-shield-2006",
      { level: "expected" },
      "set-up does not test this",
      /not by pullout block/,
    ],
    [
      "a pull-out block over 5 diameters against a local bond law",
      { ...beam, ...steel, setup: "pullout_block", embedment_mm: 80, cover_mm: 100 },
      "fib-mc2010",
      { level: "expected" },
      "judged",
      /^$/,
    ],
    [
      "an anchor whose bond stress is not known",
      { ...anchor, bond_strength_char_MPa: null, bond_strength_uncracked_char_MPa: null },
      "aci318-19",
      {},
      "input missing",
      /bond_strength_char_MPa/,
    ],
    [
      "a cracked anchor near an edge without its uncracked bond stress, which sets the critical distance",
      { ...anchor, edge_1_mm: 60, bond_strength_uncracked_char_MPa: null },
      "aci318-19",
      {},
      "input missing",
      /bond_strength_uncracked_char_MPa/,
    ],
    [
      "the same taken as the cracked one by the user's word",
      { ...anchor, edge_1_mm: 60, bond_strength_uncracked_char_MPa: null },
      "aci318-19",
      { readings: { blankUncrackedBond: "as_cracked" } },
      "judged",
      /^$/,
    ],
    [
      "the same in uncracked concrete, whose own bond stress is the uncracked one",
      { ...anchor, cracked: "no", edge_1_mm: 60, bond_strength_uncracked_char_MPa: null },
      "aci318-19",
      {},
      "judged",
      /^$/,
    ],
    [
      "rupture at the nominal level with a measured strength only",
      { ...anchor, failure_mode: "bar_rupture" },
      "aci318-19",
      {},
      "input substituted",
      /bar_strength_specified_MPa is blank/,
    ],
    [
      "rupture with a specified strength",
      { ...anchor, failure_mode: "bar_rupture", bar_strength_specified_MPa: 800 },
      "aci318-19",
      {},
      "judged",
      /^$/,
    ],
    [
      "an edge that broke out at a distance nobody stated",
      { ...anchor, setup: "direct_shear", action: "shear", failure_mode: "concrete_edge_breakout" },
      "aci318-19",
      {},
      "input missing",
      /^17\.7\.2/,
    ],
    [
      "a mode the code has no provision for",
      { ...anchor, failure_mode: "splitting" },
      "uniform-bond-1998",
      { level: "expected", lowerBounds: "stopped early" },
      "capacity of another mode",
      /for the mode splitting/,
    ],
    [
      "a splitting provision whose product value nobody stated",
      { ...anchor, failure_mode: "splitting", edge_1_mm: 60 },
      "en1992-4-2018",
      {},
      "input missing",
      /c_cr_sp_ratio/,
    ],
    [
      "an unknown failure mode",
      { ...anchor, failure_mode: "unknown" },
      "aci318-19",
      {},
      "input missing",
      /failure mode is unknown/,
    ],
    [
      "an excluded test",
      { ...anchor, excluded: "hole not cleaned" },
      "aci318-19",
      {},
      "excluded",
      /^hole not cleaned$/,
    ],
    [
      "a strength taken for a cylinder's by name",
      { ...anchor, concrete_strength_basis: "cylinder_assumed" },
      "aci318-19",
      {},
      "judged",
      /^$/,
    ],
  ])("%s", (_what, row, id, settings, status, reason) => {
    const found = statusOf(row, id, settings);
    expect([found.status, found.reason]).toEqual([status, expect.stringMatching(reason)]);
  });

  it("has the value of the row beside the limit", () => {
    expect(statusOf({ ...beam, embedment_mm: 80 }, "aci440.11-22").value).toContain(
      "embedment_mm = 80, bar_diameter_mm = 16",
    );
    expect(statusOf({ ...anchor, embedment_mm: 48 }, "aci318-19").value).toContain(
      "embedment_mm = 48, bar_diameter_mm = 16",
    );
  });

  it("is pooled with the others only on request, by the capacity that it has", () => {
    const pooled = compare(
      table({ ...beam, embedment_mm: 80, peak_load_kN: 40 }),
      code("aci440.11-22"),
      { scope: "all" },
    );
    const one = pooled.evidence.find(({ mode }) => mode === "bond");
    expect(one?.ratio).toBeCloseTo(
      40_000 / (pooled.prediction.columns[one?.column ?? -1]?.capacity[0] ?? NaN),
      12,
    );
    expect(pooled.notJudged.map(({ status }) => status)).toContain("outside stated range");
  });
});

describe("the demonstration, by its own column of layouts", () => {
  const tests = TestTable.fromRows(generateDemonstration(2026).tests);
  const { evidence, notJudged } = compare(tests, code("aci318-19"), { level: "nominal" });
  const layout = (row: number): unknown =>
    tests.row(row).extra["layout"] ??
    (tests.row(row) as unknown as Record<string, unknown>)["layout"];

  it("judges no bond specimen and no confined test by an anchor provision, and every bond failure of the others", () => {
    expect(
      evidence.filter(
        ({ row }) =>
          layout(row) === "bond_specimen" || tests.text(row, "setup") === "confined_tension",
      ),
    ).toEqual([]);
    const free = Array.from({ length: tests.length }, (_, row) => row).filter(
      (row) =>
        layout(row) !== "bond_specimen" &&
        tests.text(row, "setup") === "unconfined_tension" &&
        tests.text(row, "failure_mode") === "bond" &&
        !tests.text(row, "excluded"),
    );
    expect(
      evidence.filter(({ mode, bound }) => mode === "bond" && !bound).map(({ row }) => row),
    ).toEqual(free);
    expect(free.length).toBeGreaterThan(300);
    expect(new Set(notJudged.filter(({ bound }) => !bound).map(({ status }) => status))).toEqual(
      new Set(["set-up does not test this", "excluded"]),
    );
  });
});
