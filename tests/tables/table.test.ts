import { parse } from "csv-parse/sync";
import { JSDOM } from "jsdom";
import { describe, expect, it } from "vitest";
import { neutralText, Table, type TableColumn, tableMediaType } from "../../kernel-lib/src/tables";
import { seeded } from "../figures/gallery/draws";

const columns: TableColumn[] = [
  { key: "group", title: "Group", kind: "text" },
  { key: "n", title: "Tests", kind: "integer" },
  { key: "mean", title: "Mean ratio", kind: "number", note: "mode-matched" },
  { key: "load", title: "Load", kind: "number", unit: "kN" },
  { key: "verdict", title: "Verdict", kind: "verdict" },
];
const hostile = [
  "=1+1",
  "+1",
  "-1+2",
  "@SUM(A1)",
  "\t=1",
  "  =1",
  "＝1",
  "<script>alert(1)</script>",
  "a|b",
  'say "no", twice',
  "two\nlines",
  "\u202eright to left",
  "مرحبا",
  "🧪".repeat(40),
  "x".repeat(5000),
  "[link](javascript:1)",
  "$x$",
  "\u0000\u0007bell",
];
const tableOf = (texts: readonly string[]): Table =>
  new Table({
    id: "ratios",
    title: "Ratios",
    columns,
    rowKey: ["group"],
    notes: ["A note"],
    rows: texts.map((group, i) => ({
      group,
      n: i,
      mean: 0.9996,
      load: NaN,
      verdict: "falls short",
    })),
  });
const display = (table: Table): Record<string, unknown> => {
  const method = Reflect.get(table, Symbol.for("code-comparison.display")) as (
    this: Table,
  ) => Record<string, unknown>;
  return method.call(table);
};

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
