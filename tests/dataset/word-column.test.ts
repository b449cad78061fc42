import { describe, expect, it } from "vitest";
import { TestTable } from "../../kernel-lib/src/dataset";
import { textsOf, wordColumn } from "../../kernel-lib/src/dataset/table/word-column";
import { code, predict, type TestColumns } from "../../kernel-lib/src/provisions";
import { createRandom } from "../../kernel-lib/src/statistics";
import { PLAIN } from "../provisions/specimens";

const random = createRandom("word columns");
const pick = <T>(list: readonly T[]): T => list[random.integer(list.length)]!;

describe("columns of words that repeat", () => {
  it("come back as they were, each different word once", () => {
    for (let round = 0; round < 50; round += 1) {
      const different = 1 + random.integer(round < 25 ? 5 : 400);
      const texts = Array.from({ length: random.integer(2000) }, () =>
        pick([null, ...Array.from({ length: different }, (_, k) => `word ${k}`)]),
      );
      const column = wordColumn(texts)!;
      expect(textsOf(column)).toEqual(texts);
      expect(new Set(column.words).size).toBe(column.words.length);
      expect([...column.words].sort()).toEqual([...new Set(texts)].sort());
      expect(column.codes.BYTES_PER_ELEMENT).toBe(column.words.length <= 256 ? 1 : 2);
    }
  });

  it("are not made of words that do not repeat", () => {
    const names = Array.from({ length: 65_537 }, (_, k) => `bar ${k}`);
    expect(wordColumn(names)).toBeNull();
    expect(wordColumn(names.slice(1))?.words.length).toBe(65_536);
  });

  it("serve a table in every way as texts do, through selections and joins", () => {
    const rows = Array.from({ length: 60 }, (_, k) => ({
      ...PLAIN,
      test_id: `t${k}`,
      bar_material: pick(["gfrp", "steel", "bfrp"] as const),
      failure_mode: pick(["bond", "concrete_breakout", "unknown"] as const),
    }));
    const table = TestTable.fromRows(rows);
    const again = table
      .select([5, 3, 3, 59])
      .concat(table.where((row) => row.bar_material === "steel"));
    for (const one of [table, again]) {
      for (const name of ["bar_material", "failure_mode", "test_id"] as const) {
        expect(Array.from({ length: one.length }, (_, i) => one.text(i, name))).toEqual(
          one.texts(name),
        );
        expect(one.rows().map((row) => row[name])).toEqual(one.texts(name));
      }
      expect(textsOf(one.words("bar_material")!)).toEqual(one.texts("bar_material"));
    }
    expect(table.words("test_id")).toBeNull();
    expect(() => table.texts("no such column")).toThrow(/expected one of .*bar_material/);
  });

  it("give the same capacities to the last bit as texts do", () => {
    const rows = Array.from({ length: 200 }, (_, k) => ({
      ...PLAIN,
      test_id: `t${k}`,
      bar_material: pick(["gfrp", "steel", "bfrp"] as const),
      cracked: pick(["yes", "no", null] as const),
      concrete_type: pick(["normal", "lightweight", null] as const),
      concrete_strength_basis: pick(["cylinder", "cube_150", "unknown"] as const),
    }));
    const table = TestTable.fromRows(rows);
    const asTexts: TestColumns = {
      length: table.length,
      has: (name) => table.has(name),
      numbers: (name) => table.numbers(name),
      texts: (name) => table.texts(name),
    };
    for (const id of ["aci318-19", "en1992-4-2018"]) {
      const [coded, plain] = [predict(code(id), table), predict(code(id), asTexts)];
      coded.columns.forEach(({ capacity }, k) =>
        expect(Object.is(capacity.join(), plain.columns[k]!.capacity.join()), `${id} ${k}`).toBe(
          true,
        ),
      );
      expect(coded.columns.some(({ capacity }) => capacity.some((value) => value > 0))).toBe(true);
    }
  });
});
