import { describe, expect, it } from "vitest";
import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import { type CapacityElasticities, type Level } from "../../../kernel-lib/src/provisions";
import { inch, randomRows } from "../specimens";
import { capacity, of } from "./elasticities-of-row";

describe("laws of dimension", () => {
  const lengths = (one: CapacityElasticities): number =>
    one.by.reduce(
      (sum, { variable, elasticity }) =>
        sum + (variable.unit === "mm" ? elasticity : variable.unit === "mm2" ? 2 * elasticity : 0),
      0,
    );
  const rows = randomRows(67, 150, 0).map((row) => ({
    ...row,
    action: "tension" as const,
    concrete_strength_basis: "cylinder" as const,
    bar_area_mm2: 100,
  }));
  // One reading of all rows serves every clause of a code.
  const read = new Map<string, readonly CapacityElasticities[]>();
  const ofAll = (id: string, level: Level): readonly CapacityElasticities[] => {
    const all = read.get(id) ?? rows.flatMap((row) => of(row, id, { level }).capacities);
    read.set(id, all);
    return all;
  };
  it.each([
    // Breakout has a size effect: twice as large all over carries 2^1.5 as much, whatever edges,
    // groups and eccentricities there are.
    ["aci318-19", "17.6.2", "nominal", 1.5],
    ["en1992-4-2018", "7.2.1.4", "nominal", 1.5],
    ["ccd-1995", "tension", "expected", 1.5],
    // Bond and the bar's strength have none.
    ["aci318-19", "17.6.5", "nominal", 2],
    ["uniform-bond-1998", "bond", "expected", 2],
    ["aci318-19", "17.6.1.2", "nominal", 2],
  ] as const)(
    "%s %s: the elasticities of all lengths sum to the law of scale",
    (id, clause, level, sum) => {
      const found = ofAll(id, level).filter(({ provision }) => provision.id === `${id}/${clause}`);
      expect(found.length).toBeGreaterThan(20);
      for (const one of found) expect(lengths(one)).toBeCloseTo(sum, 11);
    },
  );
});

describe("switches within the step", () => {
  const near = (
    row: Partial<TestRowInput>,
    id: string,
    variable: string,
    within = 0.01,
  ): readonly {
    at: number;
    relative: number;
    because: string;
    elasticityBeyond: number;
    jump: number;
  }[] =>
    capacity(of(row, "aci318-19", { within }), id).by.find((one) => one.variable.name === variable)
      ?.switches ?? [];

  it("a kink is named with its place and the elasticity beyond", () => {
    // Edge at 1.5 h_ef = 9 in.; here 0.4 % farther than that.
    const [only, ...more] = near({ edge_1_mm: inch(9) * 1.004 }, "aci318-19/17.6.2", "edge_1_mm");
    expect(more).toEqual([]);
    expect(only?.relative).toBeCloseTo(1 / 1.004 - 1, 9);
    expect(only?.jump).toBe(0);
    expect(only?.because).toContain("psi_ed_N (17.6.2.4.1)");
    // At the kink: (c + 1.5 h)/(3 h) gives 1/2, 0.7 + 0.3 c/(1.5 h) gives 0.3.
    expect(only?.elasticityBeyond).toBeCloseTo(0.8, 8);
    expect(near({ edge_1_mm: inch(9) * 1.02 }, "aci318-19/17.6.2", "edge_1_mm")).toEqual([]);
  });
  it("a limit that is only reported is named, too", () => {
    const [only] = near({ embedment_mm: 20 * 15.875 * 0.995 }, "aci318-19/17.6.5", "embedment_mm");
    expect(only?.because).toBe(
      "limit of 17.3.3: for adhesive bars with embedments of 4 to 20 diameters",
    );
    expect([only?.elasticityBeyond, only?.jump]).toEqual([1, 0]);
    expect(only?.relative).toBeCloseTo(1 / 0.995 - 1, 9);
  });
  it("a jump is told as one", () => {
    // k_cp of 17.7.3.1.1 steps from 1 to 2 at h_ef = 2.5 in.
    const row = {
      action: "shear",
      setup: "direct_shear",
      embedment_mm: inch(2.5) * 0.999,
    } as const;
    const [only] = near(row, "aci318-19/17.7.3", "embedment_mm", 0.005);
    expect(only?.jump).toBeCloseTo(1, 6);
    expect(only?.at).toBeCloseTo(inch(2.5), 9);
  });
  it("another mode that takes over is a switch of the governing capacity", () => {
    // Bond and breakout of the plain bar cross where k h^1.5 = tau pi d h.
    const at = (embedment_mm: number): { bond: number; cone: number } => {
      const all = of({ embedment_mm });
      return {
        bond: capacity(all, "aci318-19/17.6.5").capacity_N,
        cone: capacity(all, "aci318-19/17.6.2").capacity_N,
      };
    };
    const { bond, cone } = at(inch(6));
    const crossing = inch(6) * (bond / cone) ** 2;
    const all = of({ embedment_mm: crossing * 1.005 });
    const [only] =
      all.governing?.by.find(({ variable }) => variable.name === "embedment_mm")?.switches ?? [];
    expect(all.governing?.provision.modes[0]).toBe("bond");
    expect(only?.because).toBe("concrete breakout (17.6.2) governs beyond");
    expect(only?.at).toBeCloseTo(crossing, 8);
    expect(only?.elasticityBeyond).toBe(1.5);
  });
  it("a group that parts within the step", () => {
    const [only] = near(
      { group_nx: 2, spacing_x_mm: inch(18) * 1.002 },
      "aci318-19/17.6.2",
      "spacing_x_mm",
    );
    expect(only?.elasticityBeyond).toBeCloseTo(0.5, 8);
    expect(only?.because).toContain("act together");
  });
});
