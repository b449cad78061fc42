import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseTests, parseTestsSpreadsheet, type TestsReading } from "../../kernel-lib/src/dataset";
import { zip } from "./spreadsheet/zip";

/** Invented files with what laboratories really write; see the folder messy. */
const read = (name: string): TestsReading =>
  parseTests(readFileSync(new URL(`messy/${name}`, import.meta.url)), name);
const asideOf = ({ rejected }: TestsReading) =>
  rejected.map(({ row, reasons }) => [row, reasons.join("; ")]);
const saying = (reading: TestsReading, rule: string, row: number): string =>
  reading.diagnostics.find((one) => one.rule === rule && one.row === row)?.message ?? "";

describe("a German laboratory's export: Windows-1252, semicolons, titles, names in two rows with merged groups, units below, decimal commas", () => {
  const reading = read("semicolons-two-row-header.csv");
  it("uses the row that is in order, to the bit", () => {
    expect(reading.tests.row(0)).toMatchObject({
      test_id: "A-1",
      bar_diameter_mm: 15.9,
      concrete_strength_MPa: 32.5,
      embedment_mm: 128,
      peak_load_kN: 61.4,
      failure_mode: "bond",
      setup: "unconfined_tension",
    });
    expect(reading.tests.source(0)).toMatchObject({ row: 8 });
    expect(reading.diagnostics.find(({ rule }) => rule === "header-in-two-rows")).toMatchObject({
      row: 4,
      severity: "information",
    });
  });
  it("says of every other row what it is and what to write instead", () => {
    expect(asideOf(reading)).toEqual([
      [7, "a note or heading, no test"],
      [
        9,
        'Peak load "~60" is only approximate: write 60 if it may count as the value, and say so in remarks',
      ],
      [
        10,
        'Peak load ">65" is a lower bound. Enter 65 and set failure_mode to what ended the test, e.g. stopped',
      ],
      [12, "a line of means or totals, no test"],
      [13, expect.stringContaining('Peak load "70±2" holds two numbers: write 70')],
      [14, 'Peak load "n/a" stands for a missing value; Test ID "B-1" is already in row 13'],
      [15, 'Peak load "1.071,3" has a thousands separator: write 1071,3'],
    ]);
    expect(
      reading.diagnostics.filter(({ severity }) => severity === "error").map(({ row }) => row),
    ).toEqual([9, 10, 13, 14, 14, 15]);
  });
});

describe("an American table with its own headings and units", () => {
  const reading = read("foreign-headings-imperial.tsv");
  it("names for each heading ours in the heading's own unit, so that renaming changes no value", () => {
    const suggestions = Object.fromEntries(
      reading.diagnostics
        .filter(({ rule }) => rule === "unknown-column")
        .map(({ column, expected }): [string, string] => [column ?? "", expected]),
    );
    expect(suggestions).toEqual({
      Specimen: "test_id",
      Reference: "study_id",
      Series: "series_id",
      "Rebar type": "bar_material",
      "db (in.)": "bar_diameter_in",
      "f'c (psi)": "concrete_strength_psi",
      "Strength basis": "concrete_strength_basis",
      "hef (in.)": "embedment_in",
      "Test setup": "setup",
      "Pult (lbf)": "peak_load_lbf",
      Failure: "failure_mode",
    });
    expect(reading.tests.length).toBe(0);
  });
  it("with those names tells a thousands separator, a bar's name, a fraction and a date apart, cell by cell", () => {
    const text = readFileSync(
      new URL("messy/foreign-headings-imperial.tsv", import.meta.url),
      "utf8",
    );
    const renamed = reading.diagnostics
      .filter(({ rule }) => rule === "unknown-column")
      .reduce((all, { column, expected }) => all.replace(column ?? "", expected), text);
    const again = parseTests(new TextEncoder().encode(renamed), "t.tsv");
    const messages = again.diagnostics
      .filter(({ rule }) => rule === "not-a-number")
      .map(
        ({ row, column, message }) =>
          `${String(row)} ${column ?? ""}: ${message.split(/"[^"]*" /)[1]?.split(",")[0] ?? ""}`,
      );
    expect(messages).toEqual(
      expect.arrayContaining([
        "2 concrete_strength_psi: may be 4500 with a thousands separator or 4.500 with a decimal comma: write which",
        "2 embedment_in: is a fraction: write it as a decimal number",
        "3 bar_diameter_in: is the name of a bar: write it into bar_size",
        "4 bar_diameter_in: is a fraction: write it as a decimal number",
      ]),
    );
    expect(saying(again, "unknown-category", 2)).toContain(
      '"Glass" is not known (did you mean gfrp?)',
    );
    expect(again.rejected.map(({ row }) => row)).toEqual([2, 3, 4, 5]);
  });
});

describe("Greek letters, and values in a converted column", () => {
  const reading = read("greek-and-thousands.csv");
  it("a fault names the value and the unit as typed, then ours", () => {
    expect(saying(reading, "out-of-limits", 4)).toContain(
      'embedment_in "-4" [in] = -101.6 mm is outside the limits, expected a number above 0 in [in], which is read as embedment_mm: above 0 in mm',
    );
    expect(saying(reading, "not-a-number", 2)).toContain(
      'concrete_strength_psi "5,000" may be 5000 with a thousands separator',
    );
  });
  it("symbols are answered with the column that they mean", () => {
    expect(
      reading.diagnostics
        .filter(({ rule }) => rule === "unknown-column")
        .map(({ column, expected }) => [column, expected]),
    ).toEqual([
      ["φ (mm)", "bar_diameter_mm"],
      ["τ (MPa)", "reported_bond_strength_MPa"],
    ]);
  });
});

describe("bond stresses in place of loads, lines of another separator, notes, and the header once more", () => {
  const reading = read("two-separators-bond-stress.csv");
  it("derives a load with the diameter that belongs to the stress, and marks it", () => {
    // By hand: pi x 16.6 x 80 x 14.2 / 1000 kN; with the bar's own 16 mm it would be 16 / 16.6 - 1
    // = -3.6 % less.
    expect(reading.tests.number(0, "peak_load_kN")).toBeCloseTo(
      (Math.PI * 16.6 * 80 * 14.2) / 1000,
      9,
    );
    expect(reading.tests.row(0).extra).toMatchObject({
      derived_columns: "peak_load_kN",
      load_rule:
        "pi x effective_diameter_mm x embedment_mm x bond_strength_MPa (with bar_diameter_mm -4 %)",
      bond_strength_MPa: 14.2,
    });
    expect(reading.tests.number(1, "peak_load_kN")).toBeCloseTo(
      (Math.PI * 16 * 80 * 13.1) / 1000,
      9,
    );
    expect(reading.diagnostics.filter(({ rule }) => rule === "derived-load")).toHaveLength(2);
  });
  it("says what to give where nothing can be derived: no stress, or a test in shear", () => {
    for (const row of [7, 9])
      expect(saying(reading, "missing-value", row)).toContain(
        "expected peak_load_kN, or in tension peak_bar_stress_MPa (with bar_area_mm2 or bar_diameter_mm) or reported_bond_strength_MPa",
      );
  });
  it("rejects what is no test, and what is cut by another separator", () => {
    expect(asideOf(reading)).toEqual([
      [4, "separated by semicolons"],
      [5, "15 cells where the header has 14"],
      [7, "peak_load_kN is blank"],
      [8, "the header once more"],
      [9, "peak_load_kN is blank"],
      [10, "a line of means or totals, no test"],
      [11, "a note or heading, no test"],
    ]);
    expect(saying(reading, "ragged-row", 5)).toContain("is there a comma inside a cell");
  });
});

describe("a spreadsheet with a hidden sheet, a hidden row, merged cells, dates made of sizes, and formulas", () => {
  const names = [
    "test_id",
    "study_id",
    "series_id",
    "bar_material",
    "bar_size",
    "bar_diameter_mm",
    "installation",
    "concrete_strength_MPa",
    "concrete_strength_basis",
    "embedment_mm",
    "setup",
    "action",
    "peak_load_kN",
    "failure_mode",
  ];
  const text = (value: string): string => `<c t="inlineStr"><is><t>${value}</t></is></c>`;
  const line = (
    r: number,
    id: string,
    size: string,
    diameter: string,
    load: string,
    attributes = "",
  ): string =>
    `<row r="${String(r)}"${attributes}>${[text(id), text("own"), text("X"), text("gfrp"), size, diameter, text("cast_in"), "<c><v>35</v></c>", text("cylinder"), "<c><v>80</v></c>", text("pullout_block"), text("tension"), load, text("bond")].join("")}</row>`;
  // 46366 days after 1899-12-30 are 2026-12-10; style 1 shows them as a date.
  const date = '<c s="1"><v>46366</v></c>';
  const sheet = `<worksheet><sheetData><row r="1">${text("Invented campaign")}</row><row r="3">${names.map(text).join("")}</row>${line(4, "X1", text("16"), "<c><v>16</v></c>", "<c><f>40+1.5</f><v>41.5</v></c>")}${line(5, "X2", date, date, "<c><v>40.2</v></c>")}${line(6, "X3", text("16"), "<c><v>16</v></c>", "<c><f>M4*1.02</f></c>")}${line(7, "X4", text("16"), "<c><v>16</v></c>", "<c><v>39.9</v></c>", ' hidden="1"')}<row r="8">${text("Mean")}<c r="M8"><f>AVERAGE(M4:M7)</f><v>40.5</v></c></row></sheetData><mergeCells count="1"><mergeCell ref="A1:D1"/></mergeCells></worksheet>`;
  const bytes = zip({
    "xl/workbook.xml":
      '<workbook><sheets><sheet name="old raw" state="hidden" r:id="r1"/><sheet name="Tests" r:id="r2"/></sheets></workbook>',
    "xl/_rels/workbook.xml.rels":
      '<Relationships><Relationship Id="r1" Target="worksheets/sheet1.xml"/><Relationship Id="r2" Target="worksheets/sheet2.xml"/></Relationships>',
    "xl/styles.xml":
      '<styleSheet><numFmts><numFmt numFmtId="164" formatCode="d\\-mmm"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="164"/></cellXfs></styleSheet>',
    "xl/worksheets/sheet1.xml": `<worksheet><sheetData><row r="1">${[...names, "slip_at_peak_mm"].map(text).join("")}</row></sheetData></worksheet>`,
    "xl/worksheets/sheet2.xml": sheet,
  });
  const reading = parseTestsSpreadsheet(bytes, "t.xlsx");
  const rule = (name: string) => reading.diagnostics.find((one) => one.rule === name);

  it("reads the sheet that is seen and says that there is another", () => {
    expect(reading.tests.texts("test_id")).toEqual(["X1", "X4"]);
    expect(reading.tests.number(0, "peak_load_kN")).toBe(41.5);
    expect(rule("chosen-sheet")?.message).toContain(
      'the sheets old raw (hidden), Tests; "Tests" was read',
    );
    expect(rule("hidden-rows")?.message).toContain("7");
    expect(rule("merged-cells")?.message).toContain("A1:D1");
  });
  it("takes no date for a number and no unsaved formula for a value", () => {
    expect(saying(reading, "not-a-number", 5)).toContain(
      'bar_diameter_mm "2026-12-10" looks like a date that a spreadsheet made of a size or range',
    );
    expect(rule("formula-without-value")).toMatchObject({ severity: "warning", row: 6 });
    expect(asideOf(reading)).toEqual([
      [5, expect.stringContaining("looks like a date")],
      [6, "peak_load_kN is blank"],
      [8, "a line of means or totals, no test"],
    ]);
  });
});
