import { describe, expect, it } from "vitest";
import { checkRecipe, importTable, TEST_COLUMNS } from "../../../kernel-lib/src/dataset";

/**
 * Size of each unit in the first of its list. Inch, pound-force, kilogram-force and psi: NIST
 * Special Publication 811 (2008), appendix B.8.
 */
const UNITS: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  mm: { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 },
  mm2: { mm2: 1, cm2: 100, in2: 645.16 },
  kN: { kN: 1, N: 0.001, MN: 1000, lbf: 0.0044482216152605, kip: 4.4482216152605, kgf: 0.00980665 },
  MPa: { MPa: 1, GPa: 1000, Pa: 1e-6, psi: 0.006894757293168, ksi: 6.894757293168 },
};

/** A recipe that fills one further column from a source column in the unit stated. */
function recipe(column: string, unit: string) {
  const given = (from: string) => ({ from });
  return {
    name: "units",
    title: "One column in one unit",
    source: { file: "table.csv", licence: "invented" },
    table: {},
    study: { provenance: "demo", transcription: "generated", citation_from: "paper" },
    columns: {
      test_id: { template: "t-{row}" },
      study_id: { study: true },
      series_id: { constant: "s" },
      bar_material: { constant: "gfrp" },
      bar_diameter_mm: given("d"),
      installation: { constant: "post_installed" },
      concrete_strength_MPa: given("fc"),
      concrete_strength_basis: { constant: "cylinder" },
      embedment_mm: given("l"),
      setup: { constant: "confined_tension" },
      action: { constant: "tension" },
      peak_load_kN: given("P"),
      failure_mode: { constant: "bond" },
      [column]: { from: "x", unit, meaning: "what the source prints" },
    },
  };
}

async function imported(column: string, unit: string, value: number): Promise<unknown> {
  const table = `paper,d,fc,l,P,x\nNobody 2020,16,30,160,60,${value}\n`;
  const { tests, rejected } = importTable(
    new TextEncoder().encode(table),
    "table.csv",
    await checkRecipe(recipe(column, unit), "recipe.json"),
  );
  expect(rejected).toEqual([]);
  const row = tests.row(0);
  return (row as unknown as Record<string, unknown>)[column] ?? row.extra[column];
}

/** Columns of the contract with a unit, and columns of a recipe's own. */
const columns = [
  ...TEST_COLUMNS.filter(({ kind, unit }) => kind === "number" && unit !== null && unit in UNITS),
  ...Object.keys(UNITS).map((unit) => ({ name: `printed_value_${unit}`, unit })),
].map(({ name, unit }) => ({ column: name, unit: unit ?? "" }));

describe("the unit of a recipe's column, with or without a meaning", () => {
  it.each(columns)("$column is filled in $unit", async ({ column, unit }) => {
    for (const [from, size] of Object.entries(UNITS[unit] ?? {})) {
      // 40 of the column's own unit: within the limits of every column.
      const value = Number((40 / size).toPrecision(12));
      expect(await imported(column, from, value), from).toBeCloseTo(40, 6);
    }
  });

  it("refuses a unit that does not measure what the name of the column says", async () => {
    await expect(checkRecipe(recipe("printed_value_MPa", "kN"), "recipe.json")).rejects.toThrow(
      /printed_value_MPa.*unit like MPa/s,
    );
  });
});
