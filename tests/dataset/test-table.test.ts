import { describe, expect, it } from "vitest";
import {
  parseTests,
  TEST_COLUMNS,
  TestTable,
  testsCsv,
  type TestRowInput,
} from "../../kernel-lib/src/dataset";
import { createRandom } from "../../kernel-lib/src/statistics/random";
import { PLAIN_TEST } from "./plain-test";

const row = (id: string, more: Partial<TestRowInput> = {}): TestRowInput => ({
  test_id: id,
  ...PLAIN_TEST,
  ...more,
});

describe("TestTable", () => {
  const table = TestTable.fromRows([
    row("1", { edge_1_mm: 100 }),
    row("2", { bar_material: "steel", excluded: "bad hole" }),
    row("3", { extra: { colour: "red", humidity: 0.5 } }),
  ]);

  it("keeps missing missing: NaN in columns, null in rows", () => {
    expect([...table.numbers("edge_1_mm")]).toEqual([100, NaN, NaN]);
    expect(table.row(1).edge_1_mm).toBeNull();
    expect(table.row(0).extra["humidity"]).toBeNull();
    expect([...table.texts("colour")]).toEqual([null, null, "red"]);
    expect(table.extraColumns).toEqual([
      { name: "colour", kind: "text" },
      { name: "humidity", kind: "number" },
    ]);
  });

  it("selects, filters and joins without changing the original", () => {
    expect(table.where((r) => r.bar_material === "gfrp").texts("test_id")).toEqual(["1", "3"]);
    expect(table.select([2, 0]).texts("test_id")).toEqual(["3", "1"]);
    expect(table.kept().length + table.excluded().length).toBe(3);
    const joined = table.concat(TestTable.fromRows([row("4", { extra: { colour: 7 } })]));
    expect(joined.length).toBe(4);
    expect(joined.row(3).extra).toMatchObject({ colour: "7", humidity: null });
    expect(table.length).toBe(3);
  });

  it("names what is wrong with an access", () => {
    expect(() => table.numbers("bar_material")).toThrow(/no number column "bar_material"/);
    expect(() => table.texts("toString")).toThrow(/no text column/);
    expect(() => table.row(3)).toThrow(/no row 3: expected a whole number from 0 to 2/);
    expect(() =>
      TestTable.fromRows([row("1", { peak_load_kN: "5" as unknown as number })]),
    ).toThrow(/peak_load_kN holds numbers/);
  });

  it("comes back from CSV bit for bit, whatever the values", () => {
    const random = createRandom("csv round trip");
    const texts = [
      "plain",
      "a, comma",
      'a "quote"',
      "two\nlines",
      " spaced ",
      "semi;colon",
      "Größe µ",
      "007",
      "=1+1",
      "NA?",
    ];
    const rows = Array.from({ length: 200 }, (_, i) =>
      row(`t${String(i)}`, {
        peak_load_kN: Math.exp(20 * random.normal() - 5),
        edge_1_mm: random.uniform() < 0.5 ? null : random.uniform() * 1e3,
        remarks: random.choice(texts).trim(),
        concrete_strength_MPa: 10 ** (1 + random.uniform()),
        extra: { note: `x${random.choice(texts).trim()}` },
      }),
    );
    const written = TestTable.fromRows(rows);
    const read = parseTests(new TextEncoder().encode(testsCsv(written)), "t.csv", {
      declared: new Set(["note"]),
    });
    expect(read.diagnostics.filter(({ severity }) => severity === "error")).toEqual([]);
    expect(read.tests.length).toBe(200);
    for (const { name, kind } of TEST_COLUMNS) {
      if (kind === "number" || kind === "integer")
        expect([...read.tests.numbers(name)], name).toEqual([...written.numbers(name)]);
      else expect([...read.tests.texts(name)], name).toEqual([...written.texts(name)]);
    }
    expect([...read.tests.texts("note")]).toEqual([...written.texts("note")]);
  });
});
