import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parseTests, parseTestsSpreadsheet, readDataset } from "../../kernel-lib/src/dataset";
import { spreadsheet } from "./spreadsheet/zip";

/** Markup of a sheet's row with texts written in place. */
const row = (number: number, texts: ReadonlyArray<string>): string =>
  `<row r="${String(number)}">${texts.map((text) => `<c t="inlineStr"><is><t>${text}</t></is></c>`).join("")}</row>`;

const header = [
  "test_id",
  "study_id",
  "series_id",
  "bar_material",
  "bar_diameter",
  "installation",
  "concrete_strength",
  "concrete_strength_basis",
  "embedment",
  "setup",
  "action",
  "peak_load",
  "failure_mode",
];
const units = ["", "", "", "", "in", "", "psi", "", "in", "", "", "lbf", ""];
const cells = [
  "A-1",
  "own",
  "A",
  "GFRP",
  "0,5",
  "post-installed",
  "4000",
  "cylinder",
  "4,5",
  "confined tension",
  "tension",
  "10000,5",
  "Bond",
];

describe("a table as laboratories write it", () => {
  it("title lines, semicolons, decimal commas, Windows-1252, CRLF, a units row and inches are read to the same bits as plain SI", () => {
    const text = [
      "Auszugsversuche, Stra\u00dfe, Halle, Winter, 2025",
      "",
      header.join(";"),
      units.join(";"),
      cells.join(";"),
    ].join("\r\n");
    const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
    const { tests, diagnostics } = parseTests(bytes, "t.csv");
    // 1 in = 25.4 mm, 1 lbf = 4.4482216152605 N, 1 psi = 6894.757293168 Pa (NIST SP 811)
    expect(tests.row(0)).toMatchObject({
      test_id: "A-1",
      bar_material: "gfrp",
      bar_diameter_mm: 12.7,
      embedment_mm: 114.3,
      failure_mode: "bond",
      setup: "confined_tension",
    });
    expect(tests.number(0, "peak_load_kN")).toBeCloseTo(10000.5 * 4.4482216152605e-3, 10);
    expect(tests.number(0, "concrete_strength_MPa")).toBeCloseTo(4000 * 6.894757293168e-3, 10);
    expect(tests.source(0)).toEqual({ file: "t.csv", row: 5 });
    expect(diagnostics.find(({ rule }) => rule === "rows-above-header")).toMatchObject({
      row: 3,
      severity: "information",
    });
    expect(diagnostics.filter(({ rule }) => rule === "converted-unit")).toHaveLength(4);
  });

  it("data that look like names never take the header's place", () => {
    const plain = [
      header
        .map(
          (name) =>
            ({
              bar_diameter: "bar_diameter_mm",
              concrete_strength: "concrete_strength_MPa",
              embedment: "embedment_mm",
              peak_load: "peak_load_kN",
            })[name] ?? name,
        )
        .join(","),
      [
        "setup",
        "action",
        "bond",
        "gfrp",
        "13",
        "cast_in",
        "30",
        "cylinder",
        "80",
        "splice",
        "tension",
        "40",
        "bond",
      ].join(","),
    ].join("\n");
    expect(parseTests(new TextEncoder().encode(plain), "t.csv").tests.text(0, "test_id")).toBe(
      "setup",
    );
  });

  it("a foreign word for a category is answered with ours and never taken for it", () => {
    const text = [
      header.join(";"),
      units.join(";"),
      cells.join(";").replace("GFRP", "glass fibre"),
    ].join("\n");
    const { tests, diagnostics } = parseTests(new TextEncoder().encode(text), "t.csv");
    expect(tests.length).toBe(0);
    expect(diagnostics.find(({ rule }) => rule === "unknown-category")?.message).toContain(
      '"glass fibre" is not known (did you mean gfrp?), expected one of steel, gfrp',
    );
  });

  it("of several sheets the one with our names is read, or the one that the descriptor names", async () => {
    const sheet = (load: string) =>
      [
        row(1, ["Winter"]),
        row(
          2,
          header.map((name, k) => `${name}${units[k] === "" ? "" : ` (${units[k] ?? ""})`}`),
        ),
        row(
          3,
          cells.map((cell) => cell.replace(",", ".")).map((cell, k) => (k === 11 ? load : cell)),
        ),
      ].join("");
    const bytes = spreadsheet({
      Notes: row(1, ["read me"]),
      First: sheet("9000"),
      Second: sheet("9500"),
    });
    expect(parseTestsSpreadsheet(bytes, "t.xlsx").tests.number(0, "peak_load_kN")).toBeCloseTo(
      9 * 4.4482216152605,
      8,
    );
    const folder = await mkdtemp(join(tmpdir(), "layout-"));
    try {
      await writeFile(join(folder, "tests.xlsx"), bytes);
      await writeFile(
        join(folder, "datapackage.json"),
        JSON.stringify({
          name: "x",
          resources: [
            {
              name: "tests",
              path: "tests.xlsx",
              dialect: { sheetName: "Second", headerRows: [2] },
              schema: { fields: [] },
            },
          ],
        }),
      );
      const read = await readDataset(folder);
      expect(read.tests.number(0, "peak_load_kN")).toBeCloseTo(9.5 * 4.4482216152605, 8);
      expect(read.diagnostics.map(({ rule }) => rule)).not.toContain("chosen-sheet");
    } finally {
      await rm(folder, { recursive: true });
    }
  });
});
