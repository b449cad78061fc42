import { describe, expect, it } from "vitest";
import { TestTable, type TestRowInput } from "../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";
import {
  CODES,
  clauseOf,
  code,
  INPUTS,
  predict,
  predictionNeeds,
  symbolsRead,
  type InputDefinition,
} from "../../kernel-lib/src/provisions";

const pull: TestRowInput = {
  test_id: "1",
  study_id: "s",
  series_id: "a",
  bar_material: "gfrp",
  bar_diameter_mm: 16,
  bar_strength_MPa: 900,
  bar_strength_specified_MPa: 765,
  installation: "post_installed",
  bond_strength_char_MPa: 10,
  bond_strength_uncracked_char_MPa: 12,
  concrete_strength_MPa: 30,
  concrete_strength_basis: "cylinder",
  cracked: "no",
  embedment_mm: 128,
  member_thickness_mm: 300,
  setup: "unconfined_tension",
  action: "tension",
  peak_load_kN: 60,
  failure_mode: "concrete_breakout",
};
const needs = (row: Partial<TestRowInput>, id = "aci318-19") =>
  predictionNeeds(code(id), TestTable.fromRows([{ ...pull, ...row }])).map(
    ({ provision, effect, columns }) => `${clauseOf(provision.id)} ${effect} ${columns.join("+")}`,
  );

describe("what a provision needs", () => {
  it("comes from its own inputs: cracking for breakout, both bond stresses for bond, the basis of an unknown strength", () => {
    expect(needs({ other_edges: "far" })).toEqual([]);
    expect(needs({ other_edges: "far", cracked: null })).toContain("17.6.2 withheld cracked");
    expect(
      needs({
        other_edges: "far",
        bond_strength_char_MPa: null,
        bond_strength_uncracked_char_MPa: null,
      }).filter((need) => need.startsWith("17.6.5")),
    ).toEqual(["17.6.5 withheld bond_strength_uncracked_char_MPa+bond_strength_char_MPa"]);
    expect(needs({ other_edges: "far", concrete_strength_basis: "unknown" })).toContain(
      "17.6.2 withheld concrete_strength_basis",
    );
  });

  it("edges want a distance or a statement that they are far", () => {
    expect(needs({})).toEqual(
      expect.arrayContaining(["17.6.2 read_as_far edge_1_mm", "17.6.5 read_as_far edge_1_mm"]),
    );
    expect(needs({ edge_1_mm: 90 })).toEqual([]);
  });

  it("an edge breakout without any edge is a gap, with one edge it is none", () => {
    const shear = {
      setup: "direct_shear",
      action: "shear",
      failure_mode: "concrete_edge_breakout",
    } as const;
    expect(needs(shear)).toContain("17.7.2 withheld edge_1_mm");
    expect(needs({ ...shear, edge_1_mm: 90 }).filter((need) => need.includes("edge_"))).toEqual([]);
  });

  it("a bar strength that is not stated withholds no bond capacity: the cap is left off and said; rupture goes without", () => {
    const cast: Partial<TestRowInput> = {
      installation: "cast_in",
      bar_surface: "sand_coated",
      cover_mm: 60,
      setup: "pullout_block",
      failure_mode: "bond",
    };
    for (const id of [
      "aci440.1r-15",
      "csa-s806-12",
      "csa-s6-14",
      "jsce-1997",
      "aashto-gfrp2-2018",
      "aci440.11-22",
    ]) {
      const at = (strength: number | null) =>
        predict(
          code(id),
          TestTable.fromRows([
            { ...pull, ...cast, bar_strength_MPa: strength, bar_strength_specified_MPa: null },
          ]),
        )
          .columns.filter(({ provision }) => provision.modes[0] === "bond")
          .map(({ capacity }) => capacity[0]);
      // A strength beyond any stress developed caps nothing, so the capacity is the same to the
      // bit; a low one caps at its own force.
      expect(at(null)).toEqual(at(1e6));
      // ACI 440.1R reduces the capped stress in proportion below 20 diameters; here are 8.
      expect(at(50)[0]).toBeCloseTo(
        ((id === "aci440.1r-15" ? 0.4 : 1) * 50 * Math.PI * 16 ** 2) / 4,
        6,
      );
      const said = needs({ ...cast, bar_strength_MPa: null, bar_strength_specified_MPa: null }, id);
      expect(said.filter((need) => need.includes("read_as_uncapped"))).toHaveLength(1);
      expect(said.filter((need) => /withheld bar_strength/.test(need))).toHaveLength(
        id === "csa-s6-14" ? 0 : 1,
      );
      expect(
        needs({ ...cast, bar_strength_MPa: 900 }, id).filter((need) =>
          need.includes("bar_strength"),
        ),
      ).toEqual([]);
    }
  });

  it("a rule for steel bars or for glass asks nothing of a basalt bar, and a mean model says what it needs", () => {
    const basalt: Partial<TestRowInput> = {
      bar_material: "bfrp",
      bar_strength_MPa: null,
      bar_strength_specified_MPa: null,
      installation: "cast_in",
      setup: "pullout_block",
      failure_mode: "bond",
    };
    for (const id of [
      "fib-mc2010",
      "orangun-1977",
      "aci408r-03",
      "aashto-gfrp2-2018",
      "aci440.11-22",
    ])
      expect(needs(basalt, id)).toEqual([]);
    expect(needs({ ...basalt, other_edges: "far" }, "uniform-bond-1998")).toContain(
      "bond withheld bond_strength_mean_MPa",
    );
    const cast: Partial<TestRowInput> = { ...basalt, bar_material: "gfrp", cover_mm: 60 };
    for (const bar_surface of [null, "unknown"] as const)
      expect(needs({ ...cast, bar_surface }, "csa-s806-12")).toContain(
        "9.3.2 withheld bar_surface",
      );
    expect(
      needs({ ...cast, bar_surface: "plain" }, "csa-s806-12").filter((need) =>
        need.includes("bar_surface"),
      ),
    ).toEqual([]);
    expect(needs({ ...basalt, cover_mm: null }, "wambeke-shield-2006")).toContain(
      "bond withheld cover_mm",
    );
  });

  it("names, for every code, rows that get no capacity and columns that the provision reads; filling is all it asks", () => {
    const rows = generateDemonstration(1)
      .tests.slice(0, 400)
      .map((row, i) =>
        i % 3 === 0 ? { ...row, cracked: null, bar_strength_MPa: null, cover_mm: null } : row,
      );
    const tests = TestTable.fromRows(rows);
    for (const one of CODES) {
      const columns = [predict(one, tests), predict(one, tests, { level: "expected" })].flatMap(
        (prediction) => prediction.columns,
      );
      for (const need of predictionNeeds(one, tests).filter(
        ({ effect }) => effect === "withheld",
      )) {
        const capacity = columns.find(({ provision }) => provision === need.provision)?.capacity;
        expect(need.rows.every((i) => Number.isNaN(capacity?.[i]))).toBe(true);
        expect(need.rows.length).toBeLessThanOrEqual(need.concerned);
        const read = new Set(
          symbolsRead(one, need.provision).flatMap(({ name, origin }) =>
            origin === "input"
              ? [(INPUTS[name as keyof typeof INPUTS] as InputDefinition).column]
              : [],
          ),
        );
        expect(
          need.columns.filter((name) => name !== "concrete_strength_basis" && !read.has(name)),
        ).toEqual([]);
      }
    }
  });

  it("a table of more rows than are looked at in one go needs what its parts need", () => {
    const rows = generateDemonstration(1).tests.map((row, i) =>
      i % 3 === 0 ? { ...row, cracked: null, bar_strength_MPa: null } : row,
    );
    const [once, times] = [
      predictionNeeds(code("aci318-19"), TestTable.fromRows(rows)),
      Math.ceil(70_000 / rows.length),
    ];
    const many = predictionNeeds(
      code("aci318-19"),
      TestTable.fromRows(Array.from({ length: times }, () => rows).flat()),
    );
    expect(once.length).toBeGreaterThan(1);
    expect(many).toEqual(
      once.map((need) => ({
        ...need,
        concerned: need.concerned * times,
        rows: Array.from({ length: times }, (_, k) =>
          need.rows.map((i) => i + k * rows.length),
        ).flat(),
      })),
    );
  });
});
