import { describe, expect, it } from "vitest";
import { code } from "../../../kernel-lib/src/provisions";
import { capacity, inch, pounds, steps } from "../specimens";

const aci = code("aci318-19");
const metric = code("aci318-19m");

// The worked values themselves stand in ../worked, one table for all codes.
describe("headed pullout", () => {
  it("is 1.4 times as much in uncracked concrete (17.6.3.3.1, from memory)", () => {
    const of = (cracked: "yes" | "no"): number =>
      capacity(
        aci,
        "aci318-19/17.6.3.2.2a",
        { installation: "cast_in", cracked },
        { options: { A_brg: 1000 } },
      );
    expect(of("no") / of("yes")).toBeCloseTo(1.4, 14);
  });
});

describe("edge breakout in shear", () => {
  const row = {
    edge_1_mm: inch(5),
    edge_2_mm: inch(6),
    member_thickness_mm: inch(6),
    action: "shear" as const,
    setup: "direct_shear" as const,
  };

  it("the metric form's rounded coefficient gives 3.2 % more", () => {
    const s = steps(metric, "aci318-19/17.7.2", row);
    expect(pounds(s["V_b"] ?? NaN) / 5_931.2).toBeCloseTo(1.032, 3);
  });

  it("a load along the edge takes twice the strength without the corner's factor, 17.7.2.1(c)", () => {
    const along = capacity(aci, "aci318-19/17.7.2.1(c)-edge2", {
      ...row,
      edge_1_mm: null,
      edge_2_mm: inch(5),
    });
    const towards = capacity(aci, "aci318-19/17.7.2", { ...row, edge_2_mm: null });
    expect(along).toBe(2 * towards);
  });
});

// Strength reduction factors of Table 17.5.3, from memory of the standard.
describe("design level", () => {
  it.each([
    ["aci318-19/17.6.2", {}, 0.65],
    ["aci318-19/17.6.2", { installation_category: 2 }, 0.55],
    ["aci318-19/17.6.2", { installation_category: 3 }, 0.45],
    ["aci318-19/17.6.2", { supplementary_reinforcement: 1 }, 0.75],
    ["aci318-19/17.6.2", { supplementary_reinforcement: 1, installation_category: 3 }, 0.55],
    ["aci318-19/17.6.5", {}, 0.65],
    ["aci318-19/17.6.1.2", {}, 0.65],
    ["aci318-19/17.6.1.2", { ductile: 1 }, 0.65],
    ["aci318-19/17.7.3", {}, 0.7],
  ])("%s with %j reduces by %d", (id, options, phi) => {
    const ratio =
      capacity(aci, id, {}, { level: "design", options }) /
      capacity(aci, id, {}, { level: "nominal", options });
    expect(ratio).toBeCloseTo(phi, 14);
  });

  it("counts steel as ductile only when told so", () => {
    const of = (options: Record<string, number>): number =>
      capacity(aci, "aci318-19/17.6.1.2", { bar_material: "steel" }, { level: "design", options });
    expect(of({ ductile: 1 }) / of({})).toBeCloseTo(0.75 / 0.65, 14);
  });
});

describe("table values of bond, 17.6.5.2.5 (from memory)", () => {
  it.each([
    [1, "yes", 200],
    [1, "no", 650],
    [2, "yes", 300],
    [2, "no", 1000],
  ] as const)(
    "table %d, cracked %s: %d psi, and no bond stress is asked of the row",
    (bond_table, cracked, stress) => {
      const row = { cracked, bond_strength_char_MPa: null, bond_strength_uncracked_char_MPa: null };
      expect(steps(aci, "aci318-19/17.6.5", row, { options: { bond_table } })["tau_used"]).toBe(
        stress,
      );
      expect(capacity(aci, "aci318-19/17.6.5", row, { options: { bond_table } })).toBeGreaterThan(
        0,
      );
    },
  );
});
