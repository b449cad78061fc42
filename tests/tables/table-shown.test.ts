import { JSDOM } from "jsdom";
import { describe, expect, it } from "vitest";
import { Table, tableMediaType, type TableColumn } from "../../kernel-lib/src/tables";
import { columns, hostile, tableOf, display } from "./hostile-table";

describe("Markdown, text and the notebook bundle", () => {
  it("keeps every row on one line with the same number of cells", () => {
    const lines = tableOf(hostile)
      .toMarkdown()
      .split("\n")
      .filter((line) => line.startsWith("|"));
    expect(lines).toHaveLength(hostile.length + 2);
    for (const line of lines)
      expect(line.replace(/\\\|/g, "").split("|")).toHaveLength(columns.length + 2);
    expect(lines.join("")).not.toContain("<script");
  });

  it("as text keeps to a width: cells break their lines, and a table of many columns goes on below with its names", () => {
    const columns: TableColumn[] = [
      { key: "name", title: "name", kind: "text" },
      ...Array.from({ length: 12 }, (_, k): TableColumn => ({
        key: `c${k}`,
        title: `column ${k}`,
        kind: "number",
        unit: "kN",
      })),
      { key: "says", title: "says", kind: "text" },
    ];
    const rows = ["first", "second"].map((name, r) => ({
      name,
      ...Object.fromEntries(Array.from({ length: 12 }, (_, k) => [`c${k}`, 100 * r + k + 0.25])),
      says: "a sentence of many words that does not fit into a narrow column",
    }));
    const wide = new Table({
      id: "t",
      title: "T",
      columns,
      rowKey: ["name"],
      rows,
      notes: ["a note that is longer than the width of the page and goes on below"],
    });
    for (const width of [40, 60, 80]) {
      const text = wide.toText(width);
      expect(Math.max(...text.split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(
        width,
      );
      // Every number stands once, every block names its rows.
      for (const row of rows)
        for (let k = 0; k < 12; k++)
          expect(text.split(/\s+/)).toContain(
            String(Number((row as Record<string, unknown>)[`c${k}`]).toPrecision(3)),
          );
      expect(text.match(/^first /gm)!.length).toBe(text.match(/^─/gm)!.length);
    }
    expect(wide.toText().split("\n")).toHaveLength(6);
  });
  it("aligns plain text", () => {
    expect(tableOf(["a", "long name"]).toText().split("\n").slice(1, 5)).toEqual([
      "Group      Tests  Mean ratio  Load (kN)  Verdict",
      "─────────  ─────  ──────────  ─────────  ───────────",
      "a              0      0.9996          –  falls short",
      "long name      1      0.9996          –  falls short",
    ]);
  });

  it("stays aligned and within the page of a notebook that strips styles", () => {
    const page = (table: Table): Document =>
      new JSDOM(String(display(table)["text/html"])).window.document;
    // Styles alone would be gone: words stand in a block, numbers where the page puts cells.
    const row = page(tableOf(["a"])).querySelector("tbody tr")!;
    expect([...row.children].map((cell) => cell.firstElementChild?.getAttribute("align"))).toEqual([
      "left",
      undefined,
      undefined,
      undefined,
      "left",
    ]);
    const wide = (count: number, title: string): Table => {
      const keys = Array.from({ length: count }, (_, k) => `c${k}`);
      return new Table({
        id: "t",
        title: "T",
        columns: [
          { key: "name", title: "name", kind: "text" },
          ...keys.map((key): TableColumn => ({ key, title, kind: "number" })),
        ],
        rowKey: ["name"],
        rows: ["one", "two"].map((name) => ({
          name,
          ...Object.fromEntries(keys.map((key, k) => [key, k])),
        })),
        notes: ["a note"],
      });
    };
    const small = page(wide(16, "heading"));
    expect(small.querySelectorAll("table")).toHaveLength(1);
    expect(small.querySelectorAll("td small")).toHaveLength(2 * 16 + 1);
    const split = page(wide(24, "heading"));
    expect(split.querySelectorAll("table").length).toBeGreaterThan(1);
    expect(split.querySelectorAll("caption")).toHaveLength(1);
    expect(split.querySelectorAll("tfoot")).toHaveLength(1);
    // Every number stands once, every piece names its rows.
    const places = [...split.querySelectorAll("td[data-value]")].map(
      (cell) =>
        `${cell.parentElement?.getAttribute("data-row-key")} ${cell.getAttribute("data-column")}`,
    );
    expect(new Set(places).size).toBe(2 * 24);
    expect(places).toHaveLength(2 * 24);
    for (const table of split.querySelectorAll("table"))
      expect([...table.querySelectorAll("th[scope=row]")].map((th) => th.textContent)).toEqual([
        "one",
        "two",
      ]);
  });

  it("carries data that survive JSON, with null for what is missing", () => {
    const table = tableOf(["a"]);
    const bundle = display(table);
    expect(Object.keys(bundle)).toEqual([
      "text/html",
      "text/plain",
      "text/markdown",
      tableMediaType,
    ]);
    const data = bundle[tableMediaType] as { rows: unknown[]; key: string[] };
    expect(JSON.parse(JSON.stringify(data))).toEqual(data);
    expect(data.rows[0]).toEqual({
      group: "a",
      n: 0,
      mean: 0.9996,
      load: null,
      verdict: "falls short",
    });
    expect(data.key).toEqual(["group"]);
  });
});
