import { describe, expect, test } from "vitest";
import { compareOutputs } from "../../kernel-lib/src/notebook";
import type { CellOutput } from "../../kernel-lib/src/notebook";

function text(value: string): CellOutput[] {
  return [{ output_type: "stream", name: "stdout", text: value }];
}

function bundle(data: Record<string, unknown>): CellOutput[] {
  return [{ output_type: "execute_result", data, metadata: {}, execution_count: 1 }];
}

const TABLE = "application/vnd.code-comparison.table+json";

describe("compareOutputs", () => {
  test.each([
    ["the same", "mean 1.25", "mean 1.25", "same"],
    ["a number within", "mean 1.25", "mean 1.2500000000001", "within_tolerance"],
    ["a number beyond", "mean 1.25", "mean 1.26", "changed"],
    ["a sign", "slope -0.5", "slope 0.5", "changed"],
    ["a word", "meets 1.25", "falls short 1.25", "changed"],
    ["a number that is part of a name", "cell2", "cell3", "changed"],
    ["an exponent", "1e-10", "1e-11", "changed"],
    ["zero against nearly zero", "0", "1e-300", "changed"],
    ["a line more", "a\n", "a\nb\n", "changed"],
    ["a time taken", "took 12.3 ms", "took 99 ms", "volatile"],
    ["a time taken and a number", "took 12.3 ms, n 3", "took 99 ms, n 4", "changed"],
    ["a date with time", "at 2026-01-31T12:00:00Z", "at 2027-01-31T12:30:00Z", "volatile"],
    ["a plain date is a value", "tested 2026-01-31", "tested 2026-02-01", "changed"],
  ])("text: %s", (_name, recorded, rerun, verdict) => {
    expect(compareOutputs(text(recorded), text(rerun), 1e-9).verdict).toBe(verdict);
  });

  test("a text cut into streams and lines differently is the same", () => {
    const parts: CellOutput[] = [
      { output_type: "stream", name: "stdout", text: ["a\n", "b"] },
      { output_type: "stream", name: "stdout", text: "\nc" },
    ];
    expect(compareOutputs(parts, text("a\nb\nc"), 0).verdict).toBe("same");
  });

  test("table rows are found by key, whatever their order; the rounded text does not count", () => {
    const table = (rows: object[], shown: string): CellOutput[] =>
      bundle({
        [TABLE]: { columns: [{ key: "s" }, { key: "r" }], rows, key: ["s"] },
        "text/plain": shown,
      });
    const recorded = table(
      [
        { s: "A", r: 1.2345 },
        { s: "B", r: 2 },
      ],
      "A 1.234\nB 2",
    );
    const swapped = table(
      [
        { s: "B", r: 2 },
        { s: "A", r: 1.2345 + 1e-13 },
      ],
      "A 1.235\nB 2",
    );
    expect(compareOutputs(recorded, swapped, 1e-9)).toMatchObject({
      verdict: "within_tolerance",
      largest: { where: "output, table, row A, column r" },
    });
    const missing = table([{ s: "A", r: 1.2345 }], "A 1.234\nB 2");
    expect(compareOutputs(recorded, missing, 1e-9).differences.map(({ where }) => where)).toEqual([
      "output, table, row B",
    ]);
    const blank = table(
      [
        { s: "A", r: null },
        { s: "B", r: 2 },
      ],
      "A 1.234\nB 2",
    );
    expect(compareOutputs(recorded, blank, 1).verdict).toBe("changed");
  });

  test("what a table says of its columns counts, and so does a value that a row lacks", () => {
    const table = (columns: object[], row: object): CellOutput[] =>
      bundle({ [TABLE]: { columns, rows: [row], key: ["s"] } });
    const recorded = table([{ key: "s" }, { key: "r", title: "ratio", note: "n = 12 tests" }], {
      s: "A",
      r: 1,
    });
    expect(
      compareOutputs(
        recorded,
        table([{ key: "s" }, { key: "r", title: "ratio", note: "n = 13 tests" }], { s: "A", r: 1 }),
        1e-9,
      ).differences,
    ).toMatchObject([
      { where: "output, table, heading of column r.note", recorded: "12", rerun: "13" },
    ]);
    expect(
      compareOutputs(
        recorded,
        table([{ key: "s" }, { key: "r", title: "ratio", note: "n = 12 tests" }], { s: "A" }),
        1e-9,
      ).differences,
    ).toMatchObject([{ where: "output, table, row A, column r", rerun: "(absent)" }]);
    expect(
      compareOutputs(recorded, table([{ key: "s" }], { s: "A" }), 1e-9).differences.map(
        ({ where, rerun }) => [where, rerun],
      ),
    ).toEqual([["output, table, column r", "missing"]]);
  });

  test("numbers in a note beside a table count when the data are the same; rounded ones do not when the data are within", () => {
    const table = (r: number, note: string): CellOutput[] =>
      bundle({
        [TABLE]: { columns: [{ key: "s" }, { key: "r" }], rows: [{ s: "A", r }], key: ["s"] },
        "text/html": `<table><tr><td>A</td></tr><tr><td>${note}</td></tr></table>`,
      });
    expect(
      compareOutputs(table(1, "12 tests left out"), table(1, "13 tests left out"), 1e-9),
    ).toMatchObject({ verdict: "changed", differences: [{ recorded: "12", rerun: "13" }] });
    expect(
      compareOutputs(table(1.2345, "mean 1.234"), table(1.2345 + 1e-13, "mean 1.235"), 1e-9)
        .verdict,
    ).toBe("within_tolerance");
    expect(
      compareOutputs(table(1.2345, "mean 1.234"), table(1.2345 + 1e-13, "mean 1.334"), 1e-9)
        .verdict,
    ).toBe("changed");
    expect(
      compareOutputs(table(1.2345, "slope \u22120.5"), table(1.2345 + 1e-13, "slope 0.5"), 1e-9)
        .verdict,
    ).toBe("changed");
  });

  test("a volatile rule that fires beside a number within tolerance is still named", () => {
    expect(
      compareOutputs(text("took 1 ms, mean 1.25"), text("took 2 ms, mean 1.2500000000001"), 1e-9),
    ).toMatchObject({ verdict: "within_tolerance", rules: ["elapsed-time"] });
    expect(
      compareOutputs(
        text("took 1 ms, at 2026-01-31T12:00Z"),
        text("took 2 ms, at 2026-01-31T12:00Z"),
        1e-9,
      ),
    ).toMatchObject({ verdict: "volatile", rules: ["elapsed-time"] });
  });

  test("a figure is compared by data and layout, and by its drawing", () => {
    const figure = (y: number[], svg: string): CellOutput[] =>
      bundle({
        "application/vnd.plotly.v1+json": { data: [{ name: "t", y }], layout: {} },
        "image/svg+xml": svg,
      });
    expect(
      compareOutputs(figure([1, 2], "<svg>a</svg>"), figure([1, 2], "<svg>b</svg>"), 0).verdict,
    ).toBe("changed");
    expect(compareOutputs(figure([1, 2], "<svg/>"), figure([1, 2, 3], "<svg/>"), 0).verdict).toBe(
      "changed",
    );
  });

  test("missing and extra outputs, and errors", () => {
    expect(compareOutputs(text("a"), [], 0).verdict).toBe("changed");
    expect(compareOutputs([], text("a"), 0).verdict).toBe("changed");
    const error = (evalue: string): CellOutput[] => [
      { output_type: "error", ename: "E", evalue, traceback: [] },
    ];
    expect(compareOutputs(error("at 3"), error("at 4"), 0).verdict).toBe("changed");
  });

  // Law: the relative difference decides, and the largest is told, for any pair of numbers.
  test("within tolerance exactly when the relative difference is", () => {
    let seed = 12345;
    const random = (): number => (seed = (seed * 1103515245 + 12345) % 2147483648) / 2147483648;
    for (let round = 0; round < 500; round++) {
      const value = (random() - 0.5) * 10 ** Math.round(random() * 20 - 10);
      const tolerance = 10 ** -(3 + random() * 9);
      const other = value * (1 + (random() - 0.5) * 4 * tolerance);
      const relative = Math.abs(other - value) / Math.max(Math.abs(other), Math.abs(value));
      const expected =
        other === value ? "same" : relative <= tolerance ? "within_tolerance" : "changed";
      expect(
        compareOutputs(
          bundle({ "application/json": value }),
          bundle({ "application/json": other }),
          tolerance,
        ).verdict,
      ).toBe(expected);
    }
  });
});
