import { describe, expect, it } from "vitest";
import { tableFrame } from "../../kernel-lib/src/face/results/table-frame";
import { Table } from "../../kernel-lib/src/tables";

const table = new Table({
  id: "loads",
  title: "Loads",
  rowKey: ["test"],
  columns: [
    { key: "test", title: "test", kind: "text" },
    { key: "size", title: "size", kind: "text" },
    { key: "load", title: "load", kind: "number" },
    { key: "n", title: "n", kind: "integer" },
  ],
  rows: [
    { test: "007", size: "010", load: 16777217, n: 3 },
    { test: "NA", size: null, load: null, n: 1 },
    { test: "1", size: "8", load: 0.1, n: null },
  ],
});

describe("danfojs frames of tables", () => {
  it("keep labels as text, large numbers exact and missing values missing", async () => {
    // 007 becomes 7 in danfojs's own CSV reading, and 16777217 becomes 16777216 in its
    // single-precision arithmetic.
    const frame = await tableFrame(table);
    expect(frame.shape).toEqual([3, 4]);
    expect(frame.column("test").values).toEqual(["007", "NA", "1"]);
    expect(frame.column("size").values).toEqual(["010", null, "8"]);
    expect(frame.column("load").values).toEqual([16777217, NaN, 0.1]);
    expect(frame.column("n").values).toEqual([3, 1, NaN]);
  });

  it("share nothing with the table", async () => {
    const frame = await tableFrame(table);
    (frame.column("load").values as number[])[0] = -1;
    expect(table.column("load")[0]).toBe(16777217);
  });
});
