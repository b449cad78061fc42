import { describe, expect, it } from "vitest";
import {
  changesReport,
  digestChanges,
  parseDataManifest,
  rowDigests,
  TestTable,
  type FileRowDigests,
  type TestRowInput,
} from "../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";

const rows = generateDemonstration(1).tests.slice(0, 60);
const sources = rows.map((_, i) => ({ file: "d/tests.csv", row: i + 2 }));
const digests = (list: ReadonlyArray<TestRowInput>): FileRowDigests =>
  rowDigests(TestTable.fromRows(list, sources))["d/tests.csv"] ?? { columns: [], tests: {} };
const changed = (i: number, change: Partial<TestRowInput>) =>
  rows.map((row, k) => (k === i ? { ...row, ...change } : row));
const idOf = (i: number): string => rows[i]!.test_id;

describe("digests of rows", () => {
  it("are the same whatever the order of rows, and find no change where there is none", () => {
    expect(digests([...rows].reverse()).tests[idOf(3)]).toBe(digests(rows).tests[idOf(3)]);
    expect(digestChanges(digests(rows), digests([...rows].reverse()))).toEqual({
      added: [],
      removed: [],
      changed: [],
    });
  });

  it("name rows added and removed, and the columns of changed rows", () => {
    const before = digests(rows);
    const after = digests([
      ...changed(4, {
        peak_load_kN: rows[4]!.peak_load_kN + 0.1,
        remarks: "read again",
        adhesive: null,
      }).slice(1),
      { ...rows[0]!, test_id: "new-1" },
    ]);
    const found = digestChanges(before, after);
    expect(found.added).toEqual(["new-1"]);
    expect(found.removed).toEqual([idOf(0)]);
    expect(found.changed).toEqual(
      expect.arrayContaining([
        { test_id: idOf(4), column: "peak_load_kN", change: "another value" },
        { test_id: idOf(4), column: "remarks", change: "filled in" },
        { test_id: idOf(4), column: "adhesive", change: "made blank" },
      ]),
    );
    expect(found.changed).toHaveLength(3);
    expect(changesReport(found)).toContain(`${idOf(4)} remarks: filled in`);
  });

  it("a column filled in one row changes no other row's digest", () => {
    const found = digestChanges(digests(rows), digests(changed(7, { crack_width_mm: 0.123 })));
    expect(found.changed.map(({ test_id }) => test_id)).toEqual([idOf(7)]);
  });

  it("tell nearly every single change of a cell by its column (one in 4096 agrees by chance)", () => {
    const before = digests(rows);
    let unnamed = 0;
    for (let k = 1; k <= 400; k += 1) {
      const found = digestChanges(
        before,
        digests(changed(5, { peak_load_kN: rows[5]!.peak_load_kN * (1 + k * 1e-9) })),
      );
      expect(found.changed).toHaveLength(1);
      if (found.changed[0]?.column === null) unnamed += 1;
      else expect(found.changed[0]?.column).toBe("peak_load_kN");
    }
    expect(unnamed).toBeLessThan(5);
  });
});

describe("manifests", () => {
  const hash = "a".repeat(64);
  it("are read where the hashes stand under inputs, hashes or at the top, with and without digests of rows", () => {
    for (const text of [
      { inputs: { "datasets/d/tests.csv": hash } },
      { hashes: { "d/tests.csv": hash } },
      { "d/tests.csv": hash },
    ]) {
      expect(parseDataManifest(JSON.stringify(text), "m.json")).toMatchObject({ rowDigests: null });
    }
    expect(
      parseDataManifest(
        JSON.stringify({ inputs: { a: hash }, rowDigests: { "d/tests.csv": digests(rows) } }),
        "m.json",
      ).rowDigests?.["d/tests.csv"],
    ).toEqual(digests(rows));
  });
  it("without a hash, or with digests that are none, are refused or left aside", () => {
    for (const text of ["", "[]", '{"inputs":{"a":"b"}}'])
      expect(() => parseDataManifest(text, "m.json")).toThrow(
        "m.json holds no SHA-256 of data files, expected a manifest",
      );
    expect(
      parseDataManifest(
        JSON.stringify({ inputs: { a: hash }, rowDigests: { x: { columns: 3 } } }),
        "m.json",
      ).rowDigests,
    ).toEqual({});
  });
});
