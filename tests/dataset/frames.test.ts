import { describe, expect, it } from "vitest";
import { TestTable, toFrame, type TestRowInput } from "../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";
import { PLAIN_TEST } from "./plain-test";

const row = (id: string, more: Partial<TestRowInput> = {}): TestRowInput => ({
  test_id: id,
  ...PLAIN_TEST,
  ...more,
});

describe("danfojs frames", () => {
  it("hold every value, missing ones missing", async () => {
    const rows = generateDemonstration(3).tests.slice(0, 150);
    const frame = await toFrame(TestTable.fromRows(rows));
    expect(frame.shape[0]).toBe(150);
    const values = frame.values as (string | number | null)[][];
    for (const [k, name] of frame.columns.entries()) {
      const cells = values.map((line) => line[k]);
      const given = rows.map(
        (one) => (one as unknown as Record<string, unknown>)[name] ?? one.extra?.[name] ?? null,
      );
      expect(cells.map((cell) => (Number.isNaN(cell) ? null : cell))).toEqual(given);
    }
  });

  it("keep labels as text and large numbers exact", async () => {
    // 007 becomes 7 in danfojs's own CSV reading, and 16777217 becomes 16777216 in its
    // single-precision arithmetic.
    const table = TestTable.fromRows([
      row("007", { bar_size: "010", peak_load_kN: 16777217 }),
      row("NA", { edge_1_mm: 0.1 }),
    ]);
    const frame = await toFrame(table);
    expect(frame.column("test_id").values).toEqual(["007", "NA"]);
    expect(frame.column("peak_load_kN").values).toEqual([16777217, 50]);
    expect(frame.column("edge_1_mm").values).toEqual([NaN, 0.1]);
    expect(frame.column("bar_size").values).toEqual(["010", null]);
  });

  it("share nothing with the table", async () => {
    const table = TestTable.fromRows([row("1"), row("2")]);
    const frame = await toFrame(table);
    (frame.column("peak_load_kN").values as number[])[0] = -1;
    expect(table.number(0, "peak_load_kN")).toBe(50);
  });
});
