import { existsSync, readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  parseTests,
  parseTestsJson,
  readDataset,
  testsCsv,
  TestTable,
  type TestRow,
} from "../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";

const at = (name: string): string => new URL(`../../datasets/${name}`, import.meta.url).pathname;
const imported = existsSync(at("imported"))
  ? readdirSync(at("imported")).map((name) => `imported/${name}`)
  : [];
const plain = (rows: ReadonlyArray<TestRow>) =>
  rows.map((row) => ({ ...row, extra: { ...row.extra } }));
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe.each(["published", "demo", ...imported])("the data set %s", (name) => {
  it("keeps every value through CSV and through JSON", async () => {
    const { tests } = await readDataset(at(name));
    expect(plain(parseTests(bytes(testsCsv(tests)), "t.csv").tests.rows())).toEqual(
      plain(tests.rows()),
    );
    const records = tests.rows().map(({ extra, ...row }) => ({ ...row, ...extra }));
    expect(plain(parseTestsJson(bytes(JSON.stringify(records)), "t.json").tests.rows())).toEqual(
      plain(tests.rows()),
    );
  });
});

describe("awkward values", () => {
  it("come back to the last bit", () => {
    const [row] = generateDemonstration(1).tests;
    const awkward = [
      0.1 + 0.2,
      1e-300,
      123456789.123456,
      5e-324,
      1.7976931348623157e308,
      1 / 3,
    ].map((load, i) => ({
      ...row!,
      test_id: ` ${String(i)};"a,b"\n${String(load)}`.trim(),
      peak_load_kN: load,
      remarks: i % 2 === 0 ? 'a "quoted", line\r\nand another' : " blanks around ".trim(),
    }));
    const table = TestTable.fromRows(awkward);
    expect(plain(parseTests(bytes(testsCsv(table)), "t.csv").tests.rows())).toEqual(
      plain(table.rows()),
    );
  });
});
