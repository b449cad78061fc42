import { describe, expect, it } from "vitest";
import { TestTable, type TestRowInput } from "../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";
import { CODES, clauseOf, code, INPUTS, predict, predictionNeeds, symbolsRead, type InputDefinition } from "../../kernel-lib/src/provisions";

const pull: TestRowInput = {
  test_id: "1", study_id: "s", series_id: "a", bar_material: "gfrp", bar_diameter_mm: 16, bar_strength_MPa: 900, installation: "post_installed", bond_strength_char_MPa: 10, bond_strength_uncracked_char_MPa: 12,
  concrete_strength_MPa: 30, concrete_strength_basis: "cylinder", cracked: "no", embedment_mm: 128, member_thickness_mm: 300, setup: "unconfined_tension", action: "tension", peak_load_kN: 60, failure_mode: "concrete_breakout",
};
const needs = (row: Partial<TestRowInput>, id = "aci318-19") => predictionNeeds(code(id), TestTable.fromRows([{ ...pull, ...row }])).map(({ provision, effect, columns }) => `${clauseOf(provision.id)} ${effect} ${columns.join("+")}`);

describe("what a provision needs", () => {
  it("comes from its own inputs: cracking for breakout, both bond stresses for bond, the basis of an unknown strength", () => {
    expect(needs({ other_edges: "far" })).toEqual([]);
    expect(needs({ other_edges: "far", cracked: null })).toContain("17.6.2 withheld cracked");
    expect(needs({ other_edges: "far", bond_strength_char_MPa: null, bond_strength_uncracked_char_MPa: null }).filter((need) => need.startsWith("17.6.5"))).toEqual(["17.6.5 withheld bond_strength_uncracked_char_MPa+bond_strength_char_MPa"]);
    expect(needs({ other_edges: "far", concrete_strength_basis: "unknown" })).toContain("17.6.2 withheld concrete_strength_basis");
  });

  it("edges want a distance or a statement that they are far", () => {
    expect(needs({})).toEqual(expect.arrayContaining(["17.6.2 read_as_far edge_1_mm", "17.6.5 read_as_far edge_1_mm"]));
    expect(needs({ edge_1_mm: 90 })).toEqual([]);
  });

  it("an edge breakout without any edge is a gap, with one edge it is none", () => {
    const shear = { setup: "direct_shear", action: "shear", failure_mode: "concrete_edge_breakout" } as const;
    expect(needs(shear)).toContain("17.7.2 withheld edge_1_mm");
    expect(needs({ ...shear, edge_1_mm: 90 }).filter((need) => need.includes("edge_"))).toEqual([]);
  });

  it("names, for every code, rows that get no capacity and columns that the provision reads; filling is all it asks", () => {
    const rows = generateDemonstration(1).tests.slice(0, 400).map((row, i) => (i % 3 === 0 ? { ...row, cracked: null, bar_strength_MPa: null, cover_mm: null } : row));
    const tests = TestTable.fromRows(rows);
    for (const one of CODES) {
      const prediction = predict(one, tests);
      for (const need of predictionNeeds(one, tests).filter(({ effect }) => effect === "withheld")) {
        const capacity = prediction.columns.find(({ provision }) => provision === need.provision)?.capacity;
        expect(need.rows.every((i) => Number.isNaN(capacity?.[i]))).toBe(true);
        expect(need.rows.length).toBeLessThanOrEqual(need.concerned);
        const read = new Set(symbolsRead(one, need.provision).flatMap(({ name, origin }) => (origin === "input" ? [(INPUTS[name as keyof typeof INPUTS] as InputDefinition).column] : [])));
        expect(need.columns.filter((name) => name !== "concrete_strength_basis" && !read.has(name))).toEqual([]);
      }
    }
  });
});
