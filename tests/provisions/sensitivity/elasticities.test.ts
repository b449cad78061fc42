import { describe, expect, it } from "vitest";
import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import {
  code,
  CODES,
  elasticities,
  predict,
  type CapacityElasticities,
} from "../../../kernel-lib/src/provisions";
import { column, inch, randomRows, table } from "../specimens";
import { capacity, of } from "./elasticities-of-row";

const by = (one: CapacityElasticities, name: string): number =>
  one.by.find(({ variable }) => variable.name === name)?.elasticity ?? NaN;

describe("a power law gives its exponents, to the last bit", () => {
  it("breakout remote from edges: 1.5 for embedment, 0.5 for concrete strength", () => {
    const breakout = capacity(of({}), "aci318-19/17.6.2");
    expect(by(breakout, "embedment_mm")).toBe(1.5);
    expect(by(breakout, "concrete_strength_MPa")).toBe(0.5);
    expect(by(breakout, "bar_diameter_mm")).toBe(0);
    const mean = capacity(of({}, "ccd-1995", { level: "expected" }), "ccd-1995/tension");
    expect([by(mean, "embedment_mm"), by(mean, "concrete_strength_MPa")]).toEqual([1.5, 0.5]);
  });
  it("uniform bond remote from edges: 1 for diameter, embedment and bond stress", () => {
    const bond = capacity(of({}), "aci318-19/17.6.5");
    expect(
      [
        "bar_diameter_mm",
        "embedment_mm",
        "bond_strength_char_MPa",
        "bond_strength_uncracked_char_MPa",
      ].map((name) => by(bond, name)),
    ).toEqual([1, 1, 1, 0]);
    const mean = capacity(
      of({ extra: { bond_strength_mean_MPa: 14 } }, "uniform-bond-1998", { level: "expected" }),
      "uniform-bond-1998/bond",
    );
    expect(
      ["bar_diameter_mm", "embedment_mm", "bond_strength_mean_MPa"].map((name) => by(mean, name)),
    ).toEqual([1, 1, 1]);
  });
  it("deep cast-in heads: 5/3", () => {
    const deep = of({ installation: "cast_in", embedment_mm: inch(15) }, "aci318-19", {
      options: { headed_cast_in: 1, deep_breakout: 1 },
    });
    expect(by(capacity(deep, "aci318-19/17.6.2"), "embedment_mm")).toBe(5 / 3);
  });
  it("edge breakout in deep wide members: 1.5 for the edge in the second form; 0.2 for embedment, 0.3 for diameter in the first", () => {
    const shear = {
      action: "shear",
      setup: "direct_shear",
      edge_1_mm: inch(4),
      member_thickness_mm: inch(30),
    } as const;
    const first = capacity(of({ ...shear, embedment_mm: inch(3) }), "aci318-19/17.7.2");
    expect(["edge_1_mm", "concrete_strength_MPa"].map((name) => by(first, name))).toEqual([
      1.5, 0.5,
    ]);
    // (l/d)^0.2 sqrt(d): 0.2 and 0.5 − 0.2.
    expect(by(first, "embedment_mm")).toBe(0.2);
    expect(by(first, "bar_diameter_mm")).toBeCloseTo(0.3, 15);
  });
  it("a blank area follows the diameter squared, a stated one stands still", () => {
    expect(by(capacity(of({ bar_area_mm2: null }), "aci318-19/17.6.1.2"), "bar_diameter_mm")).toBe(
      2,
    );
    const stated = capacity(of({}), "aci318-19/17.6.1.2");
    expect([
      by(stated, "bar_diameter_mm"),
      by(stated, "bar_area_mm2"),
      by(stated, "bar_strength_MPa"),
    ]).toEqual([0, 1, 1]);
  });
  it("an uncracked bond stress that is blank is the own one of a bar in uncracked concrete", () => {
    // Near an edge N_ag depends on both stresses; c_Na goes with the root of the uncracked one.
    const row = { edge_1_mm: inch(3), cracked: "no" } as const;
    const [one, two] = [
      capacity(of({ ...row, bond_strength_uncracked_char_MPa: null }), "aci318-19/17.6.5"),
      capacity(
        of({ ...row, bond_strength_uncracked_char_MPa: 1000 * 0.00689475729316836 }),
        "aci318-19/17.6.5",
      ),
    ];
    expect(by(one, "bond_strength_char_MPa")).toBeCloseTo(
      by(two, "bond_strength_char_MPa") + by(two, "bond_strength_uncracked_char_MPa"),
      14,
    );
  });
});

describe.each(CODES.map((each) => [each.id, each] as const))("%s: over random rows", (_, each) => {
  const rows = randomRows(61, 30, 0).map((row) => ({
    ...row,
    concrete_strength_basis: "cylinder" as const,
  }));
  const level = each.provisions[0]?.levels[0] ?? "nominal";

  it("agrees with central differences of the bulk prediction wherever no switch lies within the step", () => {
    const h = 1e-4;
    const moved = rows.flatMap((row) => {
      const all = elasticities(each, table(row), 0, { level, within: 2 * h });
      return all.variables
        .filter(({ origin, powers }) => origin !== "option" && powers.size > 0)
        .map((variable) => ({ row, all, variable }));
    });
    // One bulk prediction of all shifted rows, four in a row for each variable of each row.
    const shifted = (
      { row, variable }: (typeof moved)[number],
      factor: number,
    ): Partial<TestRowInput> => ({ ...row, [variable.name]: variable.value * factor });
    const prediction = predict(
      each,
      table(...moved.flatMap((one) => [-2, -1, 1, 2].map((k) => shifted(one, Math.exp(k * h))))),
      { level },
    );
    let compared = 0;
    moved.forEach(({ all, variable }, place) => {
      for (const one of all.capacities) {
        const found = one.by.find((entry) => entry.variable.name === variable.name);
        if (!found || found.switches.length > 0) continue;
        const four = column(prediction, one.provision.id).capacity.subarray(
          4 * place,
          4 * place + 4,
        );
        const [a, b, c, d] = Array.from(four, Math.log) as [number, number, number, number];
        // Five-point central difference of ln N: error of order h^4 and of rounding over h.
        const difference = (a - 8 * b + 8 * c - d) / (12 * h);
        compared += 1;
        if (!(Math.abs(difference - found.elasticity) < 1e-9))
          expect.fail(
            `${one.provision.id} by ${variable.name}: ${found.elasticity}, by differences ${difference}`,
          );
      }
    });
    expect(compared).toBeGreaterThan(10);
  });

  it("states the capacity that the bulk prediction states", () => {
    const prediction = predict(each, table(...rows), { level });
    rows.forEach((_row, i) => {
      for (const { provision, capacity_N } of elasticities(each, table(rows[i] ?? {}), 0, { level })
        .capacities)
        expect(capacity_N).toBe(column(prediction, provision.id).capacity[i]);
    });
  });
});

describe("recomputed from the printed equations by central differences with Richardson extrapolation (recomputed/elasticities.py)", () => {
  const names = {
    fc: "concrete_strength_MPa",
    fck: "concrete_strength_MPa",
    h: "embedment_mm",
    c1: "edge_1_mm",
    c2: "edge_2_mm",
    sx: "spacing_x_mm",
    tau: "bond_strength_char_MPa",
    tau_u: "bond_strength_uncracked_char_MPa",
    d: "bar_diameter_mm",
    ha: "member_thickness_mm",
  } as const;
  it.each([
    // python3 elasticities.py, line aci_breakout
    [
      "aci318-19",
      "aci318-19/17.6.2",
      "nominal",
      {
        concrete_strength_MPa: 28,
        embedment_mm: 150,
        edge_1_mm: 120,
        edge_2_mm: 170,
        group_nx: 2,
        spacing_x_mm: 110,
      },
      { fc: 0.5, h: 0.378079236042, c1: 0.449782775363, c2: 0.430379746835, sx: 0.241758241759 },
    ],
    // line aci_bond
    [
      "aci318-19",
      "aci318-19/17.6.5",
      "nominal",
      {
        bond_strength_char_MPa: 8,
        bond_strength_uncracked_char_MPa: 12,
        embedment_mm: 150,
        edge_1_mm: 90,
      },
      { tau: 1, tau_u: -0.236285105857, d: 0.527429788285, h: 1, c1: 0.472570211714 },
    ],
    // line en_cone
    [
      "en1992-4-2018",
      "en1992-4-2018/7.2.1.4",
      "nominal",
      { concrete_strength_MPa: 25, embedment_mm: 125, edge_1_mm: 120 },
      { fck: 0.5, h: 0.89450946079, c1: 0.60549053921 },
    ],
    // line ccd_shear
    [
      "ccd-1995",
      "ccd-1995/shear",
      "expected",
      {
        concrete_strength_MPa: 30,
        embedment_mm: 100,
        edge_1_mm: 110,
        edge_2_mm: 130,
        member_thickness_mm: 140,
        cracked: "no",
        action: "shear",
        setup: "direct_shear",
      },
      { fc: 0.5, d: 0.3, h: 0.2, c1: -0.193105150567, c2: 0.693105150567, ha: 1 },
    ],
  ] as const)("%s %s", (id, provision, level, row, expected) => {
    const one = capacity(of(row, id, { level }), provision);
    // 1e-7: what the extrapolation in the script leaves.
    for (const [name, value] of Object.entries(expected))
      expect(Math.abs(by(one, names[name as keyof typeof names]) - value), name).toBeLessThan(1e-7);
  });
});

it("refuses a row that is not there and a step that is none", () => {
  expect(() => elasticities(code("aci318-19"), table({}), 1)).toThrow(
    "no row 1: expected a whole number from 0 to 0",
  );
  expect(() => of({}, "aci318-19", { within: 0 })).toThrow("expected a number above 0 and below 1");
});
