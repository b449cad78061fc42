import { describe, expect, it } from "vitest";
import { checkRecipe, draftRecipe, importTable } from "../../../kernel-lib/src/dataset";

// Invented tests of bars in an old breakwater wall, headed as other people head their tables.
const table = [
  "Bars bonded into the breakwater wall (invented)",
  "Specimen,Rebar,db (mm),f'c (psi),hef (in),Installation,Setup,Pu (kip),Failure,Strength basis,action,Colour",
  "W-1,glass,16,4500,6.3,drilled,confined,15.2,pull-out,cylinder,tension,green",
  "W-2,glass,16,4500,6.3,drilled,confined,14.8,pull-out,cylinder,tension,green",
  "W-3,steel,16,4500,6.3,drilled,confined,19.1,whatever,cylinder,tension,grey",
].join("\n");
const bytes = new TextEncoder().encode(table);

describe("a recipe drafted from a foreign table", () => {
  const { recipe, columns, missing } = draftRecipe(bytes, "wall.csv");

  it("finds the header below the title, and a column of the contract for each heading", () => {
    expect(recipe.table.header_row).toBe(2);
    expect(columns.map(({ source, column, unit }) => [source, column, unit])).toEqual([
      ["Specimen", "test_id", null],
      ["Rebar", "bar_material", null],
      ["db (mm)", "bar_diameter_mm", null],
      ["f'c (psi)", "concrete_strength_MPa", "psi"],
      ["hef (in)", "embedment_mm", "in"],
      ["Installation", "installation", null],
      ["Setup", "setup", null],
      ["Pu (kip)", "peak_load_kN", "kip"],
      ["Failure", "failure_mode", null],
      ["Strength basis", "concrete_strength_basis", null],
      ["action", "action", null],
      ["Colour", "colour", null],
    ]);
    expect(missing).toEqual([]);
  });

  it("marks what is guessed and what is kept", () => {
    const found = Object.fromEntries(columns.map((one) => [one.source, one.found]));
    expect(found).toMatchObject({ action: "same name", Rebar: "guess", Colour: "kept" });
    expect(recipe.columns["bar_material"]?.codes).toEqual({
      glass: { value: "gfrp", confidence: "likely" },
      steel: { value: "steel", confidence: "stated" },
    });
    expect(recipe.columns["failure_mode"]?.codes?.["whatever"]).toMatchObject({
      confidence: "unknown",
    });
  });

  it("is a recipe that imports the table, each load in kN", async () => {
    const imported = importTable(bytes, "wall.csv", await checkRecipe(recipe, "draft"));
    // 1 kip is 4.4482216 kN, 1 in. is 25.4 mm (NIST Special Publication 811, appendix B.8).
    expect(imported.tests.row(0).peak_load_kN).toBeCloseTo(15.2 * 4.4482216152605, 6);
    expect(imported.tests.row(0).embedment_mm).toBeCloseTo(6.3 * 25.4, 9);
    expect(imported.tests.row(0).failure_mode).toBe("bond");
    expect(imported.tests.length + imported.rejected.length).toBe(3);
    expect(imported.studies.map(({ citation }) => citation)).toEqual([
      "To be filled in: authors, year, title",
    ]);
  });

  it("names the required columns that the source does not give", () => {
    const short = new TextEncoder().encode("test_id,bar_material\nA,gfrp\n");
    const drafted = draftRecipe(short, "short.csv");
    expect(drafted.missing).toContain("embedment_mm");
    expect(drafted.missing).not.toContain("test_id");
  });
});
