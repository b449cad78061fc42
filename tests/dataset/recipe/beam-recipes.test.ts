import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  importCard,
  importTable,
  readRecipe,
  type ImportedTable,
} from "../../../kernel-lib/src/dataset";

const here = (path: string): string => new URL(path, import.meta.url).pathname;
const recipeOf = (name: string) => readRecipe(here(`../../../datasets/recipes/${name}.json`));
const count = (
  imported: ImportedTable,
  column: "bar_material" | "bar_surface" | "failure_mode" | "study_id",
  word: string,
): number => imported.tests.texts(column).filter((found) => found === word).length;

describe("the recipe frp-steel-beam, on an invented table with the headings of the source", () => {
  // Invented values: the table itself is not at hand, and its licence does not allow passing it on.
  const HEADINGS =
    "Reference,Type of bar,Bar size ,fc (MPa),Embedment lengths (mm),Cmin (mm),τmax (MPa),Failure mode,Type of Condition,Contaminant";
  const ROWS = [
    "Invented beams 2021,0,12,30,60,25,10,0,0,0", // ribbed steel
    ",5,12,30,60,25,4,0,0,0", // plain steel
    ",1,12.7,40,100,50,12.5,0,0,0", // sand-coated glass, a cover of 50 mm
    ",3,16,40,80,32,9,1,0,0", // stopped
    ",8,10,40,200,30,15,2,0,0", // carbon that broke
    ",4,10,40,50,30,14,0,2,0", // after freeze and thaw
    ",7,10,40,50,30,13,0,0,1", // on a bond breaker
    ",6,12,40,60,25,11,0,0,0", // a hybrid bar
  ];
  const table = new TextEncoder().encode(`${HEADINGS}\n${ROWS.join("\n")}\n`);
  const take = async (): Promise<ImportedTable> =>
    importTable(table, "frp_steel_beam.csv", await recipeOf("frp-steel-beam"));

  it("imports every row but the hybrid bar, which is listed with its code", async () => {
    const imported = await take();
    expect(imported.tests.length).toBe(7);
    expect(imported.rejected).toEqual([
      { row: 9, reason: expect.stringContaining('"6" cannot be used') as string },
    ]);
    expect([...new Set(imported.tests.texts("study_id"))]).toEqual(["fb-invented-2021"]);
  });

  it("reads fibre, surface and failure from the codes and says how sure each is", async () => {
    const { tests } = await take();
    expect(tests.texts("bar_material")).toEqual([
      "steel",
      "steel",
      "gfrp",
      "gfrp",
      "cfrp",
      "bfrp",
      "gfrp",
    ]);
    expect(tests.texts("bar_surface").slice(0, 4)).toEqual([
      "ribbed",
      "plain",
      "sand_coated",
      "helically_wrapped",
    ]);
    expect(tests.texts("failure_mode")).toEqual([
      "bond",
      "bond",
      "bond",
      "stopped",
      "bar_rupture",
      "bond",
      "bond",
    ]);
    expect(tests.row(3).extra["code_confidence"]).toContain("failure_mode 1: uncertain");
  });

  it("excludes aged and contaminated bars, marks a cover of 50 mm, and gives back the bond stress of a derived load", async () => {
    const { tests } = await take();
    expect(tests.rows().map(({ excluded }) => excluded || null)).toEqual([
      null,
      null,
      null,
      null,
      null,
      "aged before the test",
      "contaminated bar",
    ]);
    expect(tests.row(2).remarks).toContain("50 mm");
    expect(tests.row(0).remarks ?? "").not.toContain("50 mm");
    // pi x 12 x 60 x 10 = 22,619.467 N.
    expect(tests.row(0).peak_load_kN).toBeCloseTo(22.619467, 6);
    expect(tests.row(0).extra["derived_columns"]).toContain("peak_load_kN");
  });

  it("says on import and on the card what it assumes and what is doubtful, and that the file is not the whole table", async () => {
    const imported = await take();
    expect(imported.diagnostics.map(({ rule }) => rule)).toContain("row-count");
    expect(imported.assumed.map(({ name, rows }) => [name, rows])).toEqual([
      ["strength-of-cylinders", 7],
    ]);
    const card = importCard(await recipeOf("frp-steel-beam"), imported);
    expect(card).toContain("do not pass it on");
    expect(card).toContain("a code that this recipe does not list");
  });
});

const uhpc = here("../../../../shared/data/compilation_2026/FRP_UHPC_Beam.csv");
describe("the recipe frp-uhpc-beam", () => {
  it.skipIf(!existsSync(uhpc))(
    `reads what the table holds (${existsSync(uhpc) ? "present" : "absent under ../shared, skipped"})`,
    async () => {
      const imported = importTable(
        readFileSync(uhpc),
        "FRP_UHPC_Beam.csv",
        await recipeOf("frp-uhpc-beam"),
      );
      // Counted in the file by another program (Python's csv): 66 splitting, 40 pull-out; sizes,
      // covers and lengths within these.
      expect([
        count(imported, "failure_mode", "splitting"),
        count(imported, "failure_mode", "bond"),
      ]).toEqual([66, 40]);
      expect(count(imported, "bar_material", "gfrp")).toBe(106);
      const diameters = imported.tests.numbers("bar_diameter_mm");
      expect([Math.min(...diameters), Math.max(...diameters)]).toEqual([13.5, 27]);
      const covers = Array.from(
        imported.tests.numbers("cover_mm"),
        (cover, i) => cover / diameters[i]!,
      );
      expect(Math.min(...covers)).toBeCloseTo(1, 9);
      expect(Math.max(...covers)).toBeCloseTo(3.7, 9);
      // Row 2: 3 diameters of 15.9 mm at 26 MPa; pi x 15.9 x 47.7 x 26 = 61,949.6 N.
      expect(imported.tests.number(0, "embedment_mm")).toBeCloseTo(47.7, 9);
      expect(imported.tests.number(0, "peak_load_kN")).toBeCloseTo(61.94963, 5);
      expect(imported.tests.number(0, "cover_mm")).toBeCloseTo(50, 6);
    },
  );
});
