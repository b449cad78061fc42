import { describe, expect, it } from "vitest";
import { importTable, type ImportedTable, type Recipe } from "../../../kernel-lib/src/dataset";

/** What an import answers when the table is not what the recipe expects. Invented. */
const recipe: Recipe = {
  name: "foreign",
  title: "Foreign",
  source: { file: "f.csv", licence: "none" },
  table: { header_row: 2, fill_down: ["Paper"] },
  study: { provenance: "published", transcription: "compilation", citation_from: "Paper" },
  columns: {
    test_id: { template: "f-{row}" },
    study_id: { study: true },
    series_id: { group_by: ["study_id"] },
    bar_material: { constant: "gfrp" },
    bar_diameter_mm: { from: "d", unit: "mm" },
    installation: { constant: "cast_in" },
    concrete_strength_MPa: { from: "fc", unit: "MPa" },
    concrete_strength_basis: { constant: "cylinder" },
    embedment_mm: { constant: 80 },
    setup: { constant: "pullout_block" },
    action: { constant: "tension" },
    peak_load_kN: { from: "P", unit: "kN" },
    failure_mode: { constant: "bond" },
  },
};
const take = (text: string): ImportedTable =>
  importTable(new TextEncoder().encode(text), "f.csv", recipe);
const TOP = "A title,,,\nPaper,d,fc,P\n";

describe("a table that is not what the recipe expects", () => {
  it("none of its rows usable: each with its cell, its fault and the way out", () => {
    expect(() => take(`${TOP}A 2019,10,"4,000",50\n,10 mm,40,50\n,16,40,~50\n`)).toThrow(
      /^f\.csv: none of its 3 rows could be used, expected at least one\n {2}rejected row 3: fc: "4,000" cannot be used.*4000 with a thousands separator.*\n {2}rejected row 4: d: "10 mm" cannot be used.*has its unit behind it.*\n {2}rejected row 5: P: "~50" cannot be used.*only approximate/,
    );
  });
  it("decimal commas that the recipe does not state", () => {
    expect(() => take("A;;;\nPaper;d;fc;P\nA 2019;10,5;40;50\n")).toThrow(
      '"10,5" cannot be used, expected a number (it has a decimal comma where the file has decimal points: write 10.5, or, where all are so, "decimal": "," into the recipe\'s table)',
    );
  });
  it("the header in another row, a column more than once", () => {
    expect(() => take("Paper,d,fc,P\nA 2019,10,40,50\n")).toThrow(
      /row 2 has no column "d", expected it there\n[^]*row 1 has 4 of them: is that the header\? then the recipe's table wants "header_row": 1$/,
    );
    const { diagnostics, tests } = take("A title,,,,\nPaper,d,fc,P,d\nA 2019,10,40,50,99\n");
    expect(diagnostics.map(({ rule, message }) => [rule, message])).toContainEqual([
      "repeated-source-column",
      'f.csv row 2 has the column "d" more than once (columns 2, 5), expected it once; the first is read',
    ]);
    expect(tests.number(0, "bar_diameter_mm")).toBe(10);
  });
  it.each([
    ["", "f.csv is empty, expected the table for recipe foreign"],
    ["%PDF-1.4\n", "f.csv is a PDF document"],
    ["<html><table>", "f.csv is a web page or XML"],
  ])("%j", (text, says) => {
    expect(() => take(text)).toThrow(says);
  });
});
