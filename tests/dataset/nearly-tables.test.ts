import { describe, expect, it } from "vitest";
import { numberHint } from "../../kernel-lib/src/dataset/reading/number-hints";
import { good, HEADER, loads, messages, read, text } from "./student-files";

describe("cells that are nearly numbers", () => {
  it.each([
    ["'50.8", "write 50.8"],
    ["–50", "write the minus sign, -50"],
    ["1\u2009234.5", "write 1234.5"],
    ["50\u200b", "cannot be seen"],
    ["٥٠", "write 50"],
    ["５０.5", "write 50.5"],
    ["۱۲", "write 12"],
    ["5O", "is it 50?"],
    ["l28", "is it 128?"],
    ["5·10", "write 5.10"],
    ["1,2×10²", "power of ten"],
    ["12/16", "decimal number, 0.75"],
    ['1 5/8"', "decimal number, 1.625"],
    ["2½", "decimal number, 2.5"],
    ["12/16/2024", "looks like a date"],
    ["16.12.2024", "looks like a date"],
    ["2024/12/16", "looks like a date"],
    ["85%", "is a percentage"],
    ["1,23,456.7", "write 123456.7"],
    ["12.345", "12345 with a thousands separator or 12,345"],
    ["30 N/mm²", "has its unit behind it"],
    ["5 t", "has its unit behind it"],
    ["5000 kgf", "has its unit behind it"],
    ["C25/30", "is a strength class"],
    ["8 db", "is a multiple of the bar's diameter"],
    ["8d", "is a multiple"],
    ["30 (cyl.)", "write 30 alone"],
    ["fc'=30", "write 30 alone"],
  ])("%j: %s", (cell, says) => {
    expect(numberHint(cell)).toContain(says);
  });
  it("leaves cells without any number to the plain sentence", () => {
    expect(["fifty", "see note", "x"].map(numberHint)).toEqual([null, null, null]);
  });
  it("shows what cannot be seen, and reads the typeset minus sign", () => {
    const reading = read(text([HEADER, good("1", "50\u200b"), good("2", "\u221250")]));
    expect(messages(reading, "not-a-number")[0]).toContain('"50\\u200b"');
    expect(messages(reading, "out-of-limits")[0]).toContain(
      't.csv row 3: peak_load_kN "\u221250" is outside the limits',
    );
  });
});

describe("points and commas", () => {
  it("a thousands point among decimal commas leaves the commas decimal; its own row is rejected with the two readings", () => {
    const reading = read(
      text(
        [
          HEADER,
          good("1", "1.234,5", "30,5"),
          good("2", "61,4", "30,5"),
          good("3", "12.345", "30,5"),
        ],
        ";",
      ),
    );
    expect(loads(reading)).toEqual([61.4]);
    expect(messages(reading, "not-a-number")).toEqual([
      expect.stringContaining("write 1234,5"),
      expect.stringContaining("may be 12345 with a thousands separator or 12,345"),
    ]);
  });
  it("a point that no thousands separator could be makes the file one of points, and the commas are answered", () => {
    const reading = read(text([HEADER, good("1", "50.5"), good("2", "50,5")], ";"));
    expect(loads(reading)).toEqual([50.5]);
    expect(messages(reading, "not-a-number")[0]).toContain(
      "has a decimal comma where the file has decimal points: write 50.5",
    );
  });
  it("warns of a file with semicolons in which every point could separate thousands; not of one with other points, nor of one with commas", () => {
    expect(
      messages(
        read(text([HEADER, good("1", "1.234"), good("2", "2.345")], ";")),
        "thousands-or-decimals",
      ),
    ).toHaveLength(1);
    expect(
      messages(
        read(text([HEADER, good("1", "1.234"), good("2", "2.34")], ";")),
        "thousands-or-decimals",
      ),
    ).toEqual([]);
    expect(messages(read(text([HEADER, good("1", "1.234")])), "thousands-or-decimals")).toEqual([]);
  });
});

describe("rows and columns that are not what they seem", () => {
  it("lines of means in several tongues are no tests; a total without a name is one fault, not twelve", () => {
    const blank = (first: string, load: string): string[] =>
      HEADER.map((_, i) => (i === 0 ? first : i === 11 ? load : ""));
    const reading = read(
      text([
        HEADER,
        good("1"),
        blank("Mean value", "51"),
        blank("Gesamt", "102"),
        blank("x̄", "51"),
        blank("Mean ± SD", "51 ± 1"),
        blank("", "102"),
        blank("N-7", "50"),
      ]),
    );
    expect(reading.diagnostics.map(({ rule, row }) => [rule, row])).toEqual([
      ["summary-row", 3],
      ["summary-row", 4],
      ["summary-row", 5],
      ["summary-row", 6],
      ["unfinished-row", 7],
      ["unfinished-row", 8],
    ]);
    expect(messages(reading, "unfinished-row")[0]).toContain(
      "12 required cells are blank (test_id, study_id, series_id, …)",
    );
    expect(reading.rejected.map(({ row }) => row)).toEqual([3, 4, 5, 6, 7, 8]);
  });
  it("what stands in a column without a name is left out aloud, an empty one in silence", () => {
    const reading = read(
      text([
        ["", ...HEADER, ""],
        ["", ...good("1"), ""],
        ["a note", ...good("2"), ""],
      ]),
    );
    expect(reading.tests.length).toBe(2);
    expect(messages(reading, "unnamed-column")).toEqual([
      't.csv: column 1 has no name and is filled in 1 row (first in row 3, "a note"), expected a name above it; the column is left out',
    ]);
  });
  it("a column twice is named by its place", () => {
    expect(
      messages(
        read(
          text([
            [...HEADER, "Peak load (kN)"],
            [...good("1"), "51"],
          ]),
        ),
        "duplicate-column",
      ),
    ).toEqual([
      't.csv: column 14 ("Peak load (kN)") holds peak_load_kN once more (first in column 12, "peak_load_kN"), expected one column; the later one is left out',
    ]);
  });
  it("a name that begins with # among others is pointed out; where all do, it is a way to number", () => {
    expect(messages(read(text([HEADER, good("1"), good("#2"), good("3")])), "marked-row")).toEqual([
      expect.stringContaining('t.csv row 3: the name "#2" begins with #'),
    ]);
    expect(messages(read(text([HEADER, good("#1"), good("#2")])), "marked-row")).toEqual([]);
  });
  it("a table on its side, and other separators", () => {
    const turned = HEADER.map((name, i) => [name, good("1")[i] ?? "", good("2")[i] ?? ""]);
    expect(messages(read(text(turned)), "table-on-its-side")[0]).toContain(
      "has 13 names of the data contract in its first column",
    );
    expect(messages(read(text([HEADER, good("1")], "|")), "no-known-column")[0]).toContain(
      "separated by vertical bars: write commas",
    );
  });
  it("values in the wrong unit are asked about", () => {
    const reading = read(text([HEADER, good("1", "50000"), good("2", "50", "4500")]));
    expect(messages(reading, "bond-stress")[0]).toContain("is the load in N or lbf");
    expect(messages(reading, "concrete-strength")[0]).toContain("is it in psi?");
  });
});
