import { parse } from "csv-parse/sync";
import { describe, expect, it } from "vitest";
import {
  detectDelimiter,
  visitRecords,
  type Delimiter,
} from "../../kernel-lib/src/dataset/reading/delimited-text";
import { createRandom } from "../../kernel-lib/src/statistics/random";

const records = (
  text: string,
  delimiter: Delimiter = ",",
): { cells: string[][]; broken: number | null; faults: number } => {
  const cells: string[][] = [];
  let faults = 0;
  const broken = visitRecords(text, delimiter, (record, _row, fault) => {
    cells.push([...record]);
    if (fault !== null) faults += 1;
  });
  return { cells, broken: broken?.row ?? null, faults };
};

describe("delimited text", () => {
  it("follows RFC 4180, section 2", () => {
    // The examples of RFC 4180, section 2, items 1 to 7.
    expect(records("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n").cells).toEqual([
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
    expect(records('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx').cells).toEqual([
      ["aaa", "b\r\nbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
    expect(records('"aaa","b""bb","ccc"').cells).toEqual([["aaa", 'b"bb', "ccc"]]);
  });

  it("agrees with csv-parse on 3,000 random well-formed texts", () => {
    const random = createRandom("delimited text");
    const pieces = ["a", "1.5", "", " ", "ä", '""', ",", ";", "\n", "\r\n", "'", "\t", "x y"];
    for (let k = 0; k < 3000; k += 1) {
      const end = random.choice(["\n", "\r\n"]);
      const delimiter = random.choice([",", ";", "\t"] as const);
      const width = 1 + random.integer(4);
      const lines = Array.from({ length: 1 + random.integer(5) }, () =>
        Array.from({ length: width }, () => {
          const content = Array.from({ length: random.integer(4) }, () =>
            random.choice(pieces),
          ).join("");
          const needsQuotes = /[",;\t\r\n]/.test(content);
          return needsQuotes || random.uniform() < 0.2 ? `"${content}"` : content;
        }).join(delimiter),
      );
      const text = lines.join(end) + (random.uniform() < 0.5 ? end : "");
      const peer = parse(text, {
        delimiter,
        relax_column_count: true,
        record_delimiter: ["\r\n", "\n"],
      });
      const own = records(text, delimiter);
      expect(own.broken).toBeNull();
      expect(own.faults).toBe(0);
      expect(own.cells, JSON.stringify(text)).toEqual(peer);
    }
  });

  it("takes an inch mark for what it is, and reports quotes that do not pair", () => {
    expect(records('5" bar,1\n6" bar,2')).toEqual({
      cells: [
        ['5" bar', "1"],
        ['6" bar', "2"],
      ],
      broken: null,
      faults: 0,
    });
    expect(records('a,"b"c\nd,e')).toMatchObject({
      cells: [
        ["a", "bc"],
        ["d", "e"],
      ],
      faults: 1,
    });
    expect(records('a,b\nc,"d\ne,f')).toMatchObject({ cells: [["a", "b"]], broken: 2 });
  });

  it.each([
    ["a,b,c", ","],
    ["a;b,5;c", ";"],
    ["a\tb;c\td", "\t"],
    ['"a;b;c",d', ","],
    ["\n\nx;y", ";"],
    ["single", ","],
  ])("finds the delimiter of %j", (text, delimiter) => {
    expect(detectDelimiter(text)).toBe(delimiter);
  });
});
