import { DataFrame } from "danfojs-node";
import { describe, expect, it } from "vitest";
import { fromFrame, TestTable, toFrame, type TestRowInput } from "../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";

const row = (id: string, more: Partial<TestRowInput> = {}): TestRowInput => ({
  test_id: id,
  study_id: "s",
  series_id: "a",
  bar_material: "gfrp",
  bar_diameter_mm: 16,
  installation: "post_installed",
  concrete_strength_MPa: 30,
  concrete_strength_basis: "cylinder",
  embedment_mm: 128,
  setup: "confined_tension",
  action: "tension",
  peak_load_kN: 50,
  failure_mode: "bond",
  ...more,
});

describe("danfojs frames", () => {
  it("go out and come back with every value, missing ones missing", async () => {
    const table = TestTable.fromRows(generateDemonstration(3).tests.slice(0, 150));
    const back = fromFrame(await toFrame(table));
    expect(back.rows().map((r) => ({ ...r, extra: { ...r.extra } }))).toEqual(
      table.rows().map((r) => ({ ...r, extra: { ...r.extra } })),
    );
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
    expect(
      fromFrame(frame)
        .rows()
        .map((r) => r.bar_size),
    ).toEqual(["010", null]);
  });

  it("share nothing with the table", async () => {
    const table = TestTable.fromRows([row("1"), row("2")]);
    const frame = await toFrame(table);
    (frame.column("peak_load_kN").values as number[])[0] = -1;
    expect(table.number(0, "peak_load_kN")).toBe(50);
  });

  it("take a filtered frame and further columns, and refuse the wrong type", async () => {
    const frame = await toFrame(
      TestTable.fromRows([row("1"), row("2", { bar_material: "steel" })]),
    );
    const steel = frame.query(
      (frame.column("bar_material").values as string[]).map((value) => value === "steel"),
    );
    expect(fromFrame(steel).texts("test_id")).toEqual(["2"]);
    steel.addColumn("ratio", [1.25], { inplace: true });
    expect([...fromFrame(steel).numbers("ratio")]).toEqual([1.25]);
    const wrong = new DataFrame({ test_id: [1], peak_load_kN: ["x"] });
    expect(() => fromFrame(wrong)).toThrow(/test_id holds text|peak_load_kN holds numbers/);
  });
});
