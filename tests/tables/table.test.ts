import { parse } from "csv-parse/sync";
import { JSDOM } from "jsdom";
import { describe, expect, it } from "vitest";
import { neutralText, Table, type TableColumn } from "../../kernel-lib/src/tables";
import { seeded } from "../figures/gallery/draws";
import { columns, hostile, tableOf } from "./hostile-table";

describe("a table", () => {
  it("cannot be changed after it is made, not even through what it was made of", () => {
    const rows = [{ group: "a", n: 1, mean: 1, load: 1, verdict: "meets" }];
    const table = new Table({ id: "t", title: "T", columns, rows, rowKey: ["group"] });
    for (const row of rows) row.n = 99;
    expect(table.column("n")).toEqual([1]);
    expect(() => Object.assign(table.rows[0] as object, { n: 2 })).toThrow(TypeError);
  });

  it.each([
    [{ rowKey: ["no"] }, 'row key "no", which is no column'],
    [{ rows: [{ group: "a", extra: 1 }] }, 'Row 1 of table "t" has "extra", which is no column'],
    [
      { rows: [{ group: "a", mean: "1.2" }] },
      'column "mean" of table "t" is "1.2". Expected a number or null.',
    ],
    [{ rows: [{ group: "a", n: 1.5 }] }, "Expected a whole number or null."],
    [{ rows: [{ group: "a" }, { group: "a" }] }, 'Rows 1 and 2 of table "t" have the same key "a"'],
    [{ id: "../up" }, "cannot be a file name"],
  ])("refuses contradictions: %j", (part, message) => {
    expect(
      () => new Table({ id: "t", title: "T", columns, rows: [], rowKey: ["group"], ...part }),
    ).toThrow(message);
  });

  it("tells rows apart whose key values only look alike when joined", () => {
    const two: TableColumn[] = [
      { key: "a", title: "A", kind: "text" },
      { key: "b", title: "B", kind: "text" },
    ];
    expect(
      () =>
        new Table({
          id: "t",
          title: "T",
          columns: two,
          rowKey: ["a", "b"],
          rows: [
            { a: "x/y", b: "z" },
            { a: "x", b: "y/z" },
          ],
        }),
    ).not.toThrow();
  });
});

describe("CSV", () => {
  it("reads back to the very same numbers", () => {
    const draw = seeded(3);
    const rows = Array.from({ length: 300 }, (_, i) => ({
      group: String(i),
      mean: (draw() - 0.5) * 10 ** Math.floor(draw() * 40 - 20),
    }));
    const table = new Table({ id: "t", title: "T", columns, rows, rowKey: ["group"] });
    const back: Record<string, string>[] = parse(table.toCsv(), { columns: true });
    expect(back.map((row) => Number(row["mean"]))).toEqual(rows.map((row) => row.mean));
    expect(new Set(back.map((row) => row["load"]))).toEqual(new Set([""]));
  });

  it("lets no text start as a formula, and leaves negative numbers alone", () => {
    const cells = parse(tableOf(hostile).toCsv(), {})
      .slice(1)
      .map((row) => row[0] as string);
    for (const cell of cells) expect(cell).not.toMatch(/^\s*[=+\-@＝＋－＠]/);
    expect(cells.map((cell, i) => cell === hostile[i] || cell === `'${hostile[i]}`)).not.toContain(
      false,
    );
    expect(neutralText("plain - text")).toBe("plain - text");
    const negative = new Table({
      id: "t",
      title: "T",
      columns,
      rows: [{ group: "a", mean: -2.5 }],
      rowKey: ["group"],
    });
    expect(negative.toCsv()).toContain("a,,-2.5,,");
  });
});

describe("HTML", () => {
  const document = new JSDOM(tableOf(hostile).toHtml()).window.document;

  it("has a caption, scoped headings with units, and a key on every row and cell", () => {
    expect(document.querySelector("caption")?.textContent).toBe("Ratios");
    expect(
      [...document.querySelectorAll("thead th")].map((th) => [
        th.getAttribute("scope"),
        th.textContent,
      ]),
    ).toContainEqual(["col", "Load (kN)"]);
    expect(document.querySelectorAll("tbody th[scope=row]")).toHaveLength(hostile.length);
    expect(
      [...document.querySelectorAll("tbody tr")].every((tr) => tr.hasAttribute("data-row-key")),
    ).toBe(true);
    expect(
      document.querySelectorAll('tbody [data-column="mean"][data-value="0.9996"]'),
    ).toHaveLength(hostile.length);
  });

  it("lets hostile text through as text", () => {
    expect(document.querySelectorAll("script, a, img")).toHaveLength(0);
    expect([...document.querySelectorAll("tbody th")].map((th) => th.textContent)).toContain(
      "<script>alert(1)</script>",
    );
  });

  it("shows 0.9996 as below 1 and a missing number as an en dash", () => {
    const row = [...(document.querySelector("tbody tr")?.children ?? [])].map(
      (cell) => cell.textContent,
    );
    expect(row.slice(2)).toEqual(["0.9996", "–", "falls short"]);
  });
});
