import { describe, expect, it } from "vitest";
import { sheetRows, zipEntries } from "../../kernel-lib/src/dataset";
import {
  sheetNames,
  Table,
  workbookBytes,
  zipArchive,
  type TableColumn,
} from "../../kernel-lib/src/tables";
import { officeAbsent, throughOffice } from "../exports/recalculated";
import { seeded } from "../figures/gallery/draws";

const columns: TableColumn[] = [
  { key: "group", title: "Group", kind: "text" },
  { key: "n", title: "Tests", kind: "integer" },
  { key: "load", title: "Load", kind: "number", unit: "kN", note: "peak" },
  { key: "verdict", title: "Verdict", kind: "verdict" },
];
const hostile = [
  "=1+1",
  "+1",
  "-1+2",
  "@SUM(A1)",
  "=cmd|' /C calc'!A0",
  "<script>alert(1)</script>",
  "]]>&amp;",
  'say "no"',
  "two\nlines",
  "\u202eright to left",
  "مرحبا",
  "🧪".repeat(40),
  "x".repeat(5000),
  "\u0000\u0007bell",
  "half \ud800 pair",
  "1e5",
  "TRUE",
  "007",
];
const tableOf = (texts: readonly string[]): Table =>
  new Table({
    id: "t",
    title: "Loads: a/b [c]?",
    columns,
    rowKey: ["group"],
    notes: ["=A1"],
    rows: texts.map((group, i) => ({ group, n: i, load: i === 0 ? NaN : i / 7, verdict: "meets" })),
  });
const bytesEqual = (a: Uint8Array, b: Uint8Array): boolean => Buffer.from(a).equals(Buffer.from(b));
const cleaned = (text: string): string =>
  text.replace(/[\u0000-\u0008\u000e-\u001f]/g, "").replace("\ud800", "\ufffd");

describe("an archive", () => {
  it("reads back, repeats to the byte and refuses names that leave it", () => {
    const files = [
      { name: "a/ä.txt", content: "one" },
      { name: "b.bin", content: new Uint8Array([0, 255, 1]) },
    ];
    const bytes = zipArchive(files);
    expect(
      [...zipEntries(bytes, () => true)].map(([name, content]) => [name, [...content]]),
    ).toEqual([
      ["a/ä.txt", [111, 110, 101]],
      ["b.bin", [0, 255, 1]],
    ]);
    expect(bytesEqual(bytes, zipArchive(files))).toBe(true);
    for (const name of ["../up", "/root", "b.bin"])
      expect(() => zipArchive([...files, { name, content: "" }])).toThrow("cannot hold");
  });
});

describe("XLSX", () => {
  it("keeps numbers as numbers to the last bit, text as text, and nothing where nothing is", () => {
    const draw = seeded(5);
    const rows = Array.from({ length: 200 }, (_, i) => ({
      group: `g${i}`,
      n: i,
      load: (draw() - 0.5) * 10 ** Math.floor(draw() * 40 - 20),
      verdict: "meets",
    }));
    const bytes = new Table({ id: "t", title: "T", columns, rowKey: ["group"], rows }).toXlsx();
    const read = sheetRows(bytes).rows;
    expect(read[0]).toEqual(["Group", "Tests", "Load (kN)", "Verdict"]);
    expect(read.slice(1).map((row) => Number(row[2]))).toEqual(rows.map(({ load }) => load));
  });
  it("carries hostile text harmlessly: no formula cell, every text as it was", () => {
    const bytes = tableOf(hostile).toXlsx();
    const sheets = [...zipEntries(bytes, (name) => name.startsWith("xl/worksheets/")).values()].map(
      (part) => new TextDecoder().decode(part),
    );
    expect(sheets.filter((xml) => xml.includes("<f>"))).toEqual([]);
    expect(
      sheetRows(bytes)
        .rows.slice(1)
        .map((row) => row[0]),
    ).toEqual(hostile.map(cleaned));
    expect(
      sheetRows(bytes, "Notes")
        .rows.flat()
        .filter((text) => text !== ""),
    ).toEqual(["Loads: a/b [c]?", "Load: peak", "=A1"]);
    expect(sheetRows(bytes).sheets).toEqual(["Loads  a b  c", "Notes"]);
  });
  it("repeats to the byte and freezes the heading", () => {
    const table = tableOf(["a", "b"]);
    expect(bytesEqual(table.toXlsx(), table.toXlsx())).toBe(true);
    const xml = new TextDecoder().decode(
      [...zipEntries(table.toXlsx(), (name) => name.endsWith("sheet1.xml")).values()][0],
    );
    expect(xml).toContain('ySplit="1"');
  });
  it("shortens sheet names and tells them apart whatever the case", () => {
    expect(sheetNames(["A", "a", "x".repeat(40), "x".repeat(40), "", "'q'"])).toEqual([
      "A",
      "a (2)",
      "x".repeat(31),
      `${"x".repeat(27)} (2)`,
      "Sheet",
      "q",
    ]);
  });
  it("refuses a number that is none", () => {
    expect(() => workbookBytes("t", [{ name: "s", rows: [[NaN]], widths: [] }])).toThrow(
      "Cell A1 is NaN",
    );
  });
  it.skipIf(officeAbsent)("opens in LibreOffice with the same texts and numbers", () => {
    const back = sheetRows(
      throughOffice(tableOf(hostile).toXlsx(), "xlsx", "xlsx:Calc MS Excel 2007 XML"),
    ).rows;
    expect(back.slice(1).map((row) => row[0])).toEqual(hostile.map(cleaned));
    expect(Number(back[3]![2])).toBeCloseTo(2 / 7, 14);
  });
});

describe("DOCX", () => {
  it("repeats to the byte and holds a native table with a repeated heading", async () => {
    const table = tableOf(hostile);
    const [one, two] = [await table.toDocx(), await table.toDocx()];
    expect(bytesEqual(one, two)).toBe(true);
    const xml = new TextDecoder().decode(
      [...zipEntries(one, (name) => name === "word/document.xml").values()][0],
    );
    expect(xml.match(/<w:tr[ >]/g)).toHaveLength(hostile.length + 1);
    expect(xml).toContain("<w:tblHeader/>");
    expect(xml).not.toContain("<script>");
  });
  it.skipIf(officeAbsent)("opens in LibreOffice and shows every text", async () => {
    const text = new TextDecoder()
      .decode(throughOffice(await tableOf(hostile).toDocx(), "docx", "html"))
      .replace(/\s+/g, " ");
    for (const shown of [
      "=1+1",
      "@SUM(A1)",
      "&lt;script&gt;alert(1)&lt;/script&gt;",
      "مرحبا",
      "Load (kN)",
      "Load: peak",
    ])
      expect(text).toContain(shown);
    expect(text).not.toContain("<script>");
  });
});
