import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import {
  importTable,
  parseTests,
  parseTestsSpreadsheet,
  readRecipe,
  sheetRows,
  TestTable,
  testsCsv,
  ZipFault,
} from "../../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../../kernel-lib/src/demonstration";
import { createRandom } from "../../../kernel-lib/src/statistics/random";
import { mutated } from "../mutate";
import { spreadsheet, zip } from "./zip";

const inline = (text: string): string =>
  `<is><t>${text.replaceAll("&", "&amp;").replaceAll("<", "&lt;")}</t></is>`;
const letters = (k: number): string =>
  (k >= 26 ? letters(Math.floor(k / 26) - 1) : "") + String.fromCharCode(65 + (k % 26));
const row = (r: number, cells: ReadonlyArray<string>): string =>
  `<row r="${String(r)}">${cells.map((cell, k) => (cell === "" ? "" : /^-?[\d.]+$/.test(cell) ? `<c r="${letters(k)}${String(r)}"><v>${cell}</v></c>` : `<c r="${letters(k)}${String(r)}" t="inlineStr">${inline(cell)}</c>`)).join("")}</row>`;

describe("sheets", () => {
  it("give shared, inline, rich, boolean, number and formula values, and keep gaps", () => {
    const markup =
      '<row r="2"><c r="A2" t="s"><v>0</v></c><c r="C2"><f>1+1</f><v>2</v></c><c r="D2" t="b"><v>1</v></c></row><row r="4"><c r="B4" t="str"><f>A2</f><v>a &lt; b</v></c><c r="AA4" t="e"><v>#DIV/0!</v></c></row>';
    const read = sheetRows(
      spreadsheet(
        { One: "", Two: markup },
        '<si><r><t>rich </t></r><r><t xml:space="preserve">&#181;m</t></r></si>',
      ),
      "Two",
    );
    expect(read.rows.map((cells) => cells.slice(0, 4))).toEqual([
      [],
      ["rich µm", "", "2", "yes"],
      [],
      ["", "a < b", "", ""],
    ]);
    expect(read.errors).toEqual([{ row: 4, column: 27, value: "#DIV/0!" }]);
    expect(read.sheets).toEqual(["One", "Two"]);
  });

  it("give the same tests as the CSV with the same values, with rows counted as in the sheet", () => {
    const table = TestTable.fromRows(generateDemonstration(1).tests.slice(0, 40));
    const lines = testsCsv(table)
      .trimEnd()
      .split("\n")
      .map((line) => line.split(","));
    const sheet = spreadsheet({
      Tests: row(1, ["Our tests"]) + lines.map((cells, i) => row(i + 3, cells)).join(""),
    });
    const read = parseTestsSpreadsheet(sheet, "t.xlsx", {
      headerRow: 3,
      declared: new Set(["bar_family", "layout"]),
    });
    expect(read.diagnostics).toEqual([]);
    expect(read.tests.rows()).toEqual(
      parseTests(new TextEncoder().encode(testsCsv(table)), "t.csv").tests.rows(),
    );
    expect(read.tests.source(0)).toEqual({ file: "t.xlsx", row: 4 });
  });

  it("reports faulty cells as CSV does", () => {
    const header =
      "test_id,study_id,series_id,bar_material,bar_diameter_mm,installation,concrete_strength_MPa,concrete_strength_basis,embedment_mm,setup,action,peak_load_kN,failure_mode".split(
        ",",
      );
    const good =
      "1,s,a,gfrp,16,post_installed,30,cylinder,128,confined_tension,tension,50,bond".split(",");
    const read = parseTestsSpreadsheet(
      spreadsheet({
        A:
          row(1, header) +
          row(2, good) +
          row(
            3,
            good.map((c) => (c === "50" ? "50,5" : c === "1" ? "2" : c)),
          ),
      }),
      "t.xlsx",
    );
    expect(read.tests.length).toBe(1);
    expect(read.diagnostics.find(({ rule }) => rule === "not-a-number")).toMatchObject({
      row: 3,
      value: "50,5",
    });
  });
});

describe("archives that mean harm or are broken", () => {
  it("stop inflating at the limit, whatever size they claim", () => {
    const bomb = zip({ "xl/workbook.xml": Buffer.alloc(5_000_000, 32) }, { size: 10 });
    expect(() =>
      sheetRows(bomb, null, { entries: 10, entryBytes: 1_000_000, totalBytes: 2_000_000 }),
    ).toThrow(/more than is allowed/);
  });

  it.each([
    ["no zip at all", Uint8Array.of(1, 2, 3), /no zip archive/],
    ["a zip that is no spreadsheet", zip({ "a.txt": "x" }), /holds no spreadsheet/],
    ["an encrypted one", zip({ "xl/workbook.xml": "<workbook/>" }, { flags: 1 }), /encrypted/],
    [
      "an unknown method",
      zip({ "xl/workbook.xml": "<workbook/>" }, { method: 99 }),
      /unknown method/,
    ],
    ["a sheet that is not there", spreadsheet({ A: "" }), /no sheet "B", expected one of A/],
    ["a row beyond all rows", spreadsheet({ B: '<row r="99999999999"/>' }), /names a row/],
    ["a cell without a place", spreadsheet({ B: '<row r="1"><c r="?"/></row>' }), /has the place/],
    ["rows that never end", spreadsheet({ B: "<row>".repeat(300_000) }), /never ends/],
    [
      "more columns than a table has",
      spreadsheet({ B: '<row r="1"><c r="ZZZ1"><v>1</v></c></row>' }),
      /more than 1000 columns/,
    ],
  ])("%s", (_what, bytes, message) => {
    expect(() => sheetRows(bytes, "B")).toThrow(message);
    expect(() => sheetRows(bytes, "B")).toThrow(ZipFault);
  });

  it("2,000 mutated ones never crash and never hang", () => {
    const random = createRandom("fuzz spreadsheets");
    const good = spreadsheet(
      { A: row(1, ["test_id", "peak_load_kN"]) + row(2, ["a", "5"]) },
      "<si><t>x</t></si>",
    );
    for (let k = 0; k < 2000; k += 1) {
      const { diagnostics } = parseTestsSpreadsheet(mutated(good, random), "t.xlsx");
      expect(diagnostics.some(({ severity }) => severity === "error")).toBe(true);
    }
  });
});

const office = spawnSync("soffice", ["--version"]).status === 0;

describe("a spreadsheet written by LibreOffice", () => {
  it.skipIf(!office)(
    `is imported by a recipe like the CSV of it (soffice ${office ? "present" : "absent, skipped"})`,
    async () => {
      const folder = mkdtempSync(join(tmpdir(), "xlsx-"));
      const madeUp = new URL("../recipe/made-up/", import.meta.url).pathname;
      try {
        const made = spawnSync(
          "soffice",
          [
            `-env:UserInstallation=file://${folder}/profile`,
            "--headless",
            "--infilter=CSV:44,34,76,1,,1033",
            "--convert-to",
            "xlsx",
            "--outdir",
            folder,
            join(madeUp, "table.csv"),
          ],
          { encoding: "utf8", timeout: 100_000 },
        );
        expect(made.status).toBe(0);
        const recipe = await readRecipe(join(madeUp, "recipe.json"));
        const fromSheet = importTable(readFileSync(join(folder, "table.xlsx")), "table.xlsx", {
          ...recipe,
          table: { ...recipe.table, sheet: "table" },
        });
        const fromCsv = importTable(readFileSync(join(madeUp, "table.csv")), "table.csv", recipe);
        expect(fromSheet.tests.rows()).toEqual(fromCsv.tests.rows());
        expect(fromSheet.rejected).toEqual(fromCsv.rejected);
      } finally {
        rmSync(folder, { recursive: true });
      }
    },
    120_000,
  );
});
