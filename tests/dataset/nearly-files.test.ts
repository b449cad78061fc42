import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parseTestsJson, parseTestsSpreadsheet, readDataset } from "../../kernel-lib/src/dataset";
import { zip } from "./spreadsheet/zip";
import { good, HEADER, loads, messages, read, text } from "./student-files";

describe("files that are something else", () => {
  it.each([
    ["%PDF-1.4\n%âãÏÓ", "a PDF document"],
    ["<html><table>", "a web page"],
    ["{\\rtf1", "a formatted text"],
    ["\u00d0\u00cf\u0011\u00e0\0\0", "old binary format"],
    ["\u0089PNG\r\n", "a picture"],
    ["\u001f\u008b\b\0", "a packed archive"],
    ["t\0\0\0e\0\0\0", "a text in UTF-32"],
  ])("%j is %s, with what to do", (start, what) => {
    const reading = read(Buffer.from(start, "latin1"));
    expect(messages(reading, "not-text")[0]).toMatch(
      new RegExp(
        `^t\\.csv is ${what === "old binary format" ? ".*" : ""}${what}.*: .*; nothing of it was read$`,
      ),
    );
    expect(reading.tests.length).toBe(0);
  });
  it("UTF-16 that does not say so is read, in both orders of bytes", () => {
    const little = Buffer.from(text([HEADER, good("1")]), "utf16le");
    for (const bytes of [little, Buffer.from(little).swap16()]) {
      const reading = read(bytes);
      expect(loads(reading)).toEqual([50]);
      expect(messages(reading, "encoding")[0]).toContain("was read as UTF-16");
    }
  });
  it("a text under the name of a spreadsheet, and an old spreadsheet", () => {
    expect(
      messages(
        parseTestsSpreadsheet(Buffer.from(text([HEADER, good("1")])), "t.xlsx"),
        "bad-spreadsheet",
      )[0],
    ).toContain("the file is a text: name it .csv");
    expect(
      messages(
        parseTestsSpreadsheet(Buffer.from("d0cf11e0a1b11ae10000", "hex"), "t.xlsx"),
        "bad-spreadsheet",
      )[0],
    ).toContain("old binary format: save it as .xlsx");
  });
  it("a folder without tests says what it has instead", async () => {
    const folder = await mkdtemp(join(tmpdir(), "no-tests-"));
    await writeFile(join(folder, "results.csv"), "a");
    await writeFile(join(folder, "tests.xls"), "a");
    await expect(readDataset(folder)).rejects.toThrow(
      /it holds results\.csv: is that the table\? then name it tests; it holds tests\.xls: save the table of it/,
    );
  });
});

describe("spreadsheets", () => {
  it("cells merged down over tests are a warning that says what to do; those across a heading are a note", () => {
    const cell = (place: string, value: string): string =>
      `<c r="${place}" t="inlineStr"><is><t>${value}</t></is></c>`;
    const row = (n: number, cells: ReadonlyArray<string>): string =>
      `<row r="${String(n)}">${cells.map((value, k) => (value === "" ? "" : cell(`${String.fromCharCode(65 + k)}${String(n)}`, value))).join("")}</row>`;
    const book = (merges: string): Uint8Array =>
      zip({
        "xl/workbook.xml": '<workbook><sheets><sheet name="T" r:id="r1"/></sheets></workbook>',
        "xl/_rels/workbook.xml.rels":
          '<Relationships><Relationship Id="r1" Target="worksheets/sheet1.xml"/></Relationships>',
        "xl/worksheets/sheet1.xml": `<worksheet><sheetData>${row(1, HEADER)}${row(2, good("1"))}${row(
          3,
          good("2").map((value, i) => (i === 1 ? "" : value)),
        )}</sheetData><mergeCells>${merges}</mergeCells></worksheet>`,
      });
    const down = parseTestsSpreadsheet(book('<mergeCell ref="B2:B3"/>'), "t.xlsx");
    expect(messages(down, "merged-down")[0]).toContain(
      "(B2:B3): only the first row of each holds the value",
    );
    expect(down.rejected.map(({ row: at, reasons }) => [at, reasons])).toEqual([
      [3, ["study_id is blank"]],
    ]);
    const across = parseTestsSpreadsheet(book('<mergeCell ref="A1:B1"/>'), "t.xlsx");
    expect([
      messages(across, "merged-down").length,
      messages(across, "merged-cells").length,
    ]).toEqual([0, 1]);
  });
});

describe("JSON", () => {
  const record = Object.fromEntries(HEADER.map((name, i) => [name, good("1")[i]]));
  const json = (content: string): string =>
    parseTestsJson(new TextEncoder().encode(content), "t.json")
      .diagnostics.map(({ message }) => message)
      .join("\n");
  it.each([
    [
      "a name twice in one record",
      JSON.stringify([record]).replace(
        '"peak_load_kN":"50"',
        '"peak_load_kN":"50",\n"peak_load_kN":"60"',
      ),
      '"peak_load_kN" twice in one record (again on line 2)',
    ],
    [
      "records under another name",
      JSON.stringify({ laboratory: "L", specimens: [{ id: 1 }] }),
      'holds its list of records under "specimens"',
    ],
    [
      "columns in place of records",
      JSON.stringify({ test_id: ["1"], peak_load_kN: [50] }),
      "holds a list for each column",
    ],
    [
      "one record a line",
      `${JSON.stringify(record)}\n${JSON.stringify(record)}\n`,
      "one record a line",
    ],
    ["a comma too many", `${JSON.stringify([record]).slice(0, -1)},]`, "unexpected ] near"],
    ["a word that is no value", '[{"test_id":"1","peak_load_kN":NaN}]', "unexpected N near"],
    ["a text cut off", '[{"test_id":"1"', "is not valid JSON"],
    [
      "a list in a cell",
      JSON.stringify([{ ...record, edge_1_mm: [100, 200] }]),
      "edge_1_mm holds a list, [100,200], expected a text or number: give each of its values a column of its own",
    ],
  ])("%s", (_what, content, says) => {
    expect(json(content)).toContain(says);
  });
  it("the same name in two records, or in a text, is none twice", () => {
    expect(
      json(JSON.stringify([record, { ...record, test_id: "2", remarks: '{"a":1,"a":2}' }])),
    ).toBe("");
  });
});
