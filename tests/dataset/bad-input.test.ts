import { describe, expect, it } from "vitest";
import { findings, good, HEADER, ids, read } from "./test-file";

describe("a faulty file is reported, and the good rows go on", () => {
  it("reads a file in order without a word", () => {
    const reading = read(`${HEADER}\n${good("1")}\n`);
    expect(reading.diagnostics).toEqual([]);
    expect(reading.tests.row(0)).toMatchObject({
      test_id: "1",
      bar_diameter_mm: 16,
      peak_load_kN: 50,
      edge_1_mm: null,
      failure_mode: "bond",
    });
  });

  it.each([
    ["a text in a number column", good("2", "fifty"), "not-a-number", "peak_load_kN", "fifty"],
    ["a negative load", good("2", "-5"), "out-of-limits", "peak_load_kN", "-5"],
    ["a load of nothing", good("2", ""), "missing-value", "peak_load_kN", ""],
    [
      "a word for missing in a required cell",
      good("2", "n/a"),
      "missing-value",
      "peak_load_kN",
      "n/a",
    ],
    ["infinity", good("2", "1e999"), "not-a-number", "peak_load_kN", "1e999"],
    ["hexadecimal", good("2", "0x10"), "not-a-number", "peak_load_kN", "0x10"],
    ["a unit behind the number", good("2", "50 kN"), "not-a-number", "peak_load_kN", "50 kN"],
    ["thousands with an apostrophe", good("2", "1'000"), "not-a-number", "peak_load_kN", "1'000"],
    [
      "an unknown failure mode",
      good("2").replace(/bond$/, "exploded"),
      "unknown-category",
      "failure_mode",
      "exploded",
    ],
    ["a duplicate id", good("1"), "duplicate-id", "test_id", "1"],
  ])("%s", (_what, row, rule, column, value) => {
    const reading = read(`${HEADER}\n${good("1")}\n${row}\n${good("3")}\n`);
    expect(findings(reading, rule)[0]).toMatchObject({
      file: "t.csv",
      row: 3,
      column,
      value,
      severity: "error",
    });
    expect(findings(reading, rule)[0]?.expected.length).toBeGreaterThan(3);
    expect(ids(reading)).toEqual(["1", "3"]);
    expect(reading.rejected.map(({ row: at }) => at)).toEqual([3]);
    expect(reading.rejected[0]?.cells.join(",")).toBe(row);
  });

  it("keeps an unknown column and offers the likely name", () => {
    const reading = read(`${HEADER},bar_sufrace,colour\n${good("1")},ribbed,red\n`);
    const found = findings(reading, "unknown-column");
    expect(found.map(({ column, expected }) => [column, expected])).toEqual([
      ["bar_sufrace", "bar_surface"],
      ["colour", "a column of the data contract"],
    ]);
    expect(reading.tests.text(0, "colour")).toBe("red");
    expect(reading.tests.row(0).extra["bar_sufrace"]).toBe("ribbed");
  });

  it("says which required column is absent, once, and uses no row", () => {
    const reading = read(
      `${HEADER.replace(",peak_load_kN", "")}\n${good("1").replace(",50,", ",")}\n`,
    );
    expect(findings(reading, "missing-column")).toHaveLength(1);
    expect(reading.tests.length).toBe(0);
    expect(reading.rejected).toHaveLength(1);
  });

  it.each([
    ["", "empty-file"],
    ["\n\n", "empty-file"],
    [`${HEADER}\n`, "no-rows"],
  ])("an empty file %#", (text, rule) => {
    const reading = read(text);
    expect(findings(reading, rule)[0]).toMatchObject({ file: "t.csv", severity: "error" });
    expect(reading.tests.length).toBe(0);
  });

  it("refuses binary files and spreadsheets with a plain sentence", () => {
    expect(findings(read(Uint8Array.of(0x50, 0x4b, 3, 4)), "not-text")[0]?.message).toMatch(
      /zip archive or spreadsheet/,
    );
    expect(findings(read(Uint8Array.of(65, 0, 66)), "not-text")[0]?.message).toMatch(/binary/);
  });

  it("lets no header reach the prototype of anything", () => {
    const reading = read(`${HEADER},__proto__,constructor,toString\n${good("1")},polluted,x,y\n`);
    expect(findings(reading, "reserved-name").map(({ column }) => column)).toEqual([
      "__proto__",
      "constructor",
    ]);
    expect(ids(reading)).toEqual(["1"]);
    expect(Object.entries(reading.tests.row(0).extra)).toEqual([["toString", "y"]]);
    expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
    expect(Object.getPrototypeOf(reading.tests.row(0))).toBe(Object.prototype);
  });

  it("sets ragged rows aside and skips blank lines", () => {
    const reading = read(
      `${HEADER}\n${good("1")}\n\n${good("2")},more\n${good("3").slice(0, -5)}\n${good("4")},,\n,,,,\n${good("5")}\n`,
    );
    expect(findings(reading, "ragged-row").map(({ row }) => row)).toEqual([4, 5]);
    expect(ids(reading)).toEqual(["1", "4", "5"]);
  });

  it("keeps the rows before a quotation mark that never closes", () => {
    const reading = read(
      `${HEADER},remarks\n${good("1")},"all ""well"", so far"\n${good("2")},"never closed\n${good("3")},x\n`,
    );
    expect(findings(reading, "broken-quotes")[0]).toMatchObject({ row: 3 });
    expect(ids(reading)).toEqual(["1"]);
    expect(reading.tests.text(0, "remarks")).toBe('all "well", so far');
  });

  it("makes control characters in messages visible", () => {
    const reading = read(`${HEADER}\n${good("2", "\u001b[31m5\u202e")}\n`);
    expect(findings(reading, "not-a-number")[0]?.message).not.toMatch(/[\u001b\u202e]/);
  });
});
