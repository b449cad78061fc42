import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { importCard, importTable, importTables, readRecipe } from "../../../kernel-lib/src/dataset";

const here = (path: string): string => new URL(path, import.meta.url).pathname;
const recipe = () => readRecipe(here("made-up/recipe.json"));
const table = readFileSync(here("made-up/table.csv"));

describe("several files of one shape", () => {
  it("become one data set whose rows know their file; names need {file}, or the second is rejected as a repeat", async () => {
    const plain = await recipe();
    const files = ["north.csv", "south.csv"].map((file) => ({ bytes: table, file }));
    const alone = importTable(table, "north.csv", plain);
    const named = importTables(files, {
      ...plain,
      columns: { ...plain.columns, test_id: { template: "{file}-{row}" } },
    });
    expect(named.tests.length).toBe(2 * alone.tests.length);
    expect(named.sourceRows).toBe(2 * alone.sourceRows);
    expect(new Set(named.tests.texts("source_file"))).toEqual(new Set(["north.csv", "south.csv"]));
    expect(named.tests.text(0, "test_id")).toMatch(/^north-\d+$/);
    expect(named.studies).toEqual(alone.studies);
    expect(
      named.rejected
        .filter(({ file }) => file === "south.csv")
        .map(({ row, reason }) => ({ row, reason })),
    ).toEqual(alone.rejected);
    expect(importCard(plain, named)).toContain("from `north.csv`, `south.csv`");
    const clash = importTables(files, plain);
    expect(clash.tests.length).toBe(alone.tests.length);
    expect(
      clash.rejected.filter(
        ({ file, reason }) => file === "south.csv" && reason.includes("is already in"),
      ),
    ).toHaveLength(alone.tests.length);
  });
});
