import { existsSync, readFileSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { compare } from "../../../kernel-lib/src/comparison";
import { code } from "../../../kernel-lib/src/provisions";
import {
  checkRecipe,
  importCard,
  importTable,
  readDataset,
  readRecipe,
  writeDataset,
} from "../../../kernel-lib/src/dataset";

const here = (path: string): string => new URL(path, import.meta.url).pathname;
const recipe = () => readRecipe(here("made-up/recipe.json"));
const table = readFileSync(here("made-up/table.csv"));

describe("a made-up table with everything that is wrong with real ones", () => {
  it("imports what can be used and lists the rest with reasons", async () => {
    const imported = importTable(table, "table.csv", await recipe());
    expect(imported.tests.texts("test_id")).toEqual([
      "mu-3-gfrp",
      "mu-4-gfrp",
      "mu-5-gfrp",
      "mu-6-cfrp",
      "mu-9-gfrp",
    ]);
    expect(imported.rejected).toEqual([
      { row: 7, reason: "no bond stress is given" },
      { row: 8, reason: 'bar_surface: "9" cannot be used, expected one of the codes 3, 5' },
      { row: 10, reason: 'tau (MPa): "ten" cannot be used, expected a number' },
    ]);
    expect(imported.tests.length + imported.rejected.length).toBe(imported.sourceRows);
  });

  it("fills down references, numbers series, and tells two papers of one author and year apart", async () => {
    const { tests, studies } = importTable(table, "table.csv", await recipe());
    expect(studies.map(({ study_id, year }) => [study_id, year])).toEqual([
      ["mu-nobody-2019", 2019],
      ["mu-nobody-2019b", 2019],
      ["mu-somebody", null],
    ]);
    expect(tests.texts("series_id")).toEqual([
      "mu-nobody-2019-s01",
      "mu-nobody-2019-s01",
      "mu-nobody-2019-s01",
      "mu-nobody-2019b-s01",
      "mu-somebody-s01",
    ]);
  });

  it("converts units and ratios, calculates loads and marks them as derived", async () => {
    const { tests } = importTable(table, "table.csv", await recipe());
    const row = tests.row(3);
    expect(row.embedment_mm).toBe(100);
    expect(row.concrete_strength_MPa).toBeCloseTo(34.4737865, 6); // 5,000 psi, NIST SP 811
    expect(row.peak_load_kN).toBeCloseTo((Math.PI * 12.7 * 100 * 9) / 1000, 9);
    expect(row.extra["derived_columns"]).toBe("embedment_mm peak_load_kN");
    expect(row.extra["code_confidence"]).toBe("bar_material 3: likely");
    expect(tests.row(4)).toMatchObject({ excluded: "tested wet" });
    expect(tests.row(2).extra).toMatchObject({
      note: "quoted, with comma",
      source_row: 5,
      code_confidence: "bar_surface 3: fair",
    });
  });

  it("assumes by name what the source leaves unsaid, in every row marked, or leaves it unsaid when told to", async () => {
    const base = await recipe();
    const assumptions = [
      {
        name: "cylinders",
        says: "not stated",
        uncertainty: "22 % less",
        column: "concrete_strength_basis",
        when: [{ column: "concrete_strength_basis", is: ["unknown"] }],
        value: "cylinder_assumed",
      },
      {
        name: "wide-blocks",
        says: "not stated",
        uncertainty: "none",
        column: "cover_mm",
        when: [{ column: "cover_mm", blank: true }],
        product: [4.5, "bar_diameter_mm"],
      },
    ];
    const checked = await checkRecipe(
      {
        ...base,
        columns: { ...base.columns, concrete_strength_basis: { constant: "unknown" } },
        assumptions,
      },
      "r.json",
    );
    const made = importTable(table, "table.csv", checked);
    expect(new Set(made.tests.texts("concrete_strength_basis"))).toEqual(
      new Set(["cylinder_assumed"]),
    );
    expect(made.tests.number(3, "cover_mm")).toBeCloseTo(4.5 * 12.7, 9);
    expect(new Set(made.tests.texts("assumptions"))).toEqual(new Set(["cylinders wide-blocks"]));
    expect(made.assumed.map(({ name, rows }) => [name, rows])).toEqual([
      ["cylinders", 5],
      ["wide-blocks", 5],
    ]);
    expect(importCard(checked, made)).toContain(
      "- `cylinders` (`concrete_strength_basis`, 5 rows): not stated. Uncertainty: 22 % less.",
    );
    const unsaid = importTable(table, "table.csv", checked, { assume: [] });
    expect(new Set(unsaid.tests.texts("concrete_strength_basis"))).toEqual(new Set(["unknown"]));
    expect(unsaid.tests.has("assumptions")).toBe(false);
    await expect(
      checkRecipe({ ...base, assumptions: [{ ...assumptions[0], value: "cylindre" }] }, "r.json"),
    ).rejects.toThrow('"cylindre" is no word of concrete_strength_basis');
    await expect(
      checkRecipe({ ...base, assumptions: [assumptions[1], assumptions[1]] }, "r.json"),
    ).rejects.toThrow('"wide-blocks" is the name of another assumption');
  });

  it("says when the file is not the one the recipe was written for", async () => {
    const { diagnostics } = importTable(table, "table.csv", {
      ...(await recipe()),
      source: { file: "table.csv", licence: "-", rows: 7, sha256: "0".repeat(64) },
    });
    expect(
      diagnostics.filter(({ severity }) => severity === "warning").map(({ rule }) => rule),
    ).toEqual(["changed-source", "row-count"]);
  });

  it("names an absent source column and the likely one", async () => {
    const changed = Buffer.from(table.toString().replace("tau (MPa)", "Tau [MPa]"));
    expect(() =>
      importTable(
        changed,
        "table.csv",
        JSON.parse(readFileSync(here("made-up/recipe.json"), "utf8")) as Awaited<
          ReturnType<typeof recipe>
        >,
      ),
    ).toThrow(/no column "tau \(MPa\)".*"Tau \[MPa\]"/);
  });

  it("comes back whole from the folder it is written to, and replaces the old one", async () => {
    const parent = await mkdtemp(join(tmpdir(), "import-"));
    try {
      const imported = importTable(table, "table.csv", await recipe());
      for (let k = 0; k < 2; k += 1)
        await writeDataset(join(parent, "made-up"), {
          ...imported,
          card: importCard(await recipe(), imported),
        });
      const back = await readDataset(join(parent, "made-up"));
      expect(back.diagnostics.filter(({ severity }) => severity === "error")).toEqual([]);
      expect(back.tests.rows()).toEqual(imported.tests.rows());
      expect(back.card).toContain("row 8: bar_surface");
    } finally {
      await rm(parent, { recursive: true });
    }
  });
});

describe.each([
  { name: "frp-uhpc-pullout", file: "FRP_UHPC_Pullout.csv", rows: 290, studies: 13, excluded: 0 },
  { name: "frp-swssc", file: "FRP_SWSSC.csv", rows: 292, studies: 15, excluded: 24 },
  { name: "frp-uhpc-beam", file: "FRP_UHPC_Beam.csv", rows: 106, studies: 3, excluded: 0 },
])("the recipe $name", ({ name, file, rows, studies, excluded }) => {
  const source = here(`../../../../shared/data/compilation_2026/${file}`);

  it("is a valid recipe", async () => {
    expect((await readRecipe(here(`../../../datasets/recipes/${name}.json`))).name).toBe(name);
  });

  it.skipIf(!existsSync(source))(
    `imports every row of ${file} (${existsSync(source) ? "present" : "absent under ../shared, skipped"})`,
    async () => {
      const imported = importTable(
        readFileSync(source),
        file,
        await readRecipe(here(`../../../datasets/recipes/${name}.json`)),
      );
      expect(imported.rejected).toEqual([]);
      expect(imported.tests.length).toBe(rows);
      expect(imported.studies.length).toBe(studies);
      // With what the recipe assumes every kept row gives a ratio when pooled; with nothing assumed
      // none does.
      const ratios = (tests: typeof imported.tests): number =>
        compare(tests, code("wambeke-shield-2006"), { level: "expected", scope: "all" }).evidence
          .length;
      expect(ratios(imported.tests)).toBe(rows - excluded);
      expect(
        ratios(
          importTable(
            readFileSync(source),
            file,
            await readRecipe(here(`../../../datasets/recipes/${name}.json`)),
            { assume: [] },
          ).tests,
        ),
      ).toBe(0);
      expect(imported.tests.excluded().length).toBe(excluded);
      expect(
        imported.diagnostics.filter(
          ({ severity, rule }) =>
            severity === "error" ||
            rule === "changed-source" ||
            rule === "row-count" ||
            rule === "reported-bond-stress",
        ),
      ).toEqual([]);
      // A derived load gives its bond stress back; nothing else may be concluded from it.
      for (const row of imported.tests.rows()) {
        expect(
          (1000 * row.peak_load_kN) / (Math.PI * row.bar_diameter_mm * row.embedment_mm),
        ).toBeCloseTo(Number(row.extra["reported_bond_strength_MPa"]), 8);
        expect(row.extra["derived_columns"]).toContain("peak_load_kN");
      }
    },
  );
});
