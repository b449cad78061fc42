import { readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import { compare } from "../../../kernel-lib/src/comparison";
import { checkRecipe, importCard, importTable } from "../../../kernel-lib/src/dataset";
import { code } from "../../../kernel-lib/src/provisions";

const page = new URL("../../../datasets/recipes/README.md", import.meta.url).pathname;

/** The table and the recipe's parts as the tutorial prints them: a newcomer copies just these. */
async function tutorial(): Promise<{ table: string; recipe: unknown }> {
  const text = await readFile(page, "utf8");
  const table = /(?: {4}Bond tests.*\n)(?: {4}.*\n)+/.exec(text)?.[0].replace(/^ {4}/gm, "") ?? "";
  const parts = (text.match(/(?:^ {7}.*\n)+/gm) ?? [])
    .map((part) => part.trim().replace(/,$/, ""))
    .filter((part) => part.startsWith('"'));
  return { table, recipe: JSON.parse(`{${parts.join(",")}}`) };
}

describe("the tutorial for recipes", () => {
  it("gives, word by word, a valid recipe and the data set it promises", async () => {
    const { table, recipe } = await tutorial();
    const checked = await checkRecipe(recipe, "my-table.json");
    const imported = importTable(new TextEncoder().encode(table), "table.csv", checked);
    expect(imported.diagnostics.map(({ severity, rule }) => [severity, rule])).toEqual([
      ["information", "assumed"],
      ["information", "assumed"],
      ["information", "assumed"],
    ]);
    expect(imported.tests.text(0, "assumptions")).toBe(
      "strength-of-cylinders failed-in-bond cover-of-a-cube",
    );
    const text = await readFile(page, "utf8");
    expect(text).toContain(
      `datasets/imported/${checked.name}: ${String(imported.tests.length)} of ${String(imported.sourceRows)} rows imported, ${String(imported.studies.length)} studies, ${String(imported.rejected.length)} rejected`,
    );
    for (const { name, rows } of imported.assumed)
      expect(text).toContain(`assumed ${name} in ${String(rows)} rows`);
    for (const { row, reason } of imported.rejected)
      expect(text).toContain(`rejected row ${String(row)}: ${reason}`);
    // By hand: 4000 psi = 27.579 MPa (NIST SP 811), l = 5 x 10 mm, N = pi x 10 x 50 x 12.5 / 1000
    // kN
    expect(imported.tests.row(0)).toMatchObject({
      test_id: "mt-3",
      study_id: "nobody-2019",
      bar_material: "gfrp",
      embedment_mm: 50,
    });
    expect(imported.tests.number(0, "concrete_strength_MPa")).toBeCloseTo(27.579, 3);
    expect(imported.tests.number(0, "peak_load_kN")).toBeCloseTo(19.635, 3);
    // Both rows have a ratio by the codes that step 9 names.
    for (const [id, level] of [
      ["aci440.1r-15", "nominal"],
      ["wambeke-shield-2006", "expected"],
    ] as const)
      expect(
        compare(imported.tests, code(id), { level, scope: "all" }).evidence.map(({ ratio }) =>
          Number.isFinite(ratio),
        ),
      ).toEqual([true, true]);
    expect(imported.tests.text(1, "remarks")).toContain("low for carbon");
    expect(importCard(checked, imported)).toContain("the strength's specimen is not stated");
  });

  it("a condition on a column that the recipe never fills is refused, as it would silently never hold", async () => {
    const { recipe } = await tutorial();
    await expect(
      checkRecipe(
        {
          ...(recipe as object),
          flags: [{ when: [{ column: "bar_modulus_GPa", above: 100 }], remark: "x" }],
        },
        "my-table.json",
      ),
    ).rejects.toThrow('asks for the column "bar_modulus_GPa", which the recipe does not fill');
  });
});
