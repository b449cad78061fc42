import { beforeAll, describe, expect, it } from "vitest";
import { compare, groupRatios } from "../../../kernel-lib/src/comparison";
import { readDataset, sheetRows } from "../../../kernel-lib/src/dataset";
import {
  handCheckSheets,
  handChecksOf,
  typicalEvidence,
} from "../../../kernel-lib/src/exports/workbook";
import { code } from "../../../kernel-lib/src/provisions";
import { workbookBytes, type Cell, type Sheet } from "../../../kernel-lib/src/tables";
import { allThroughOffice, officeAbsent } from "../recalculated";

const XLSX = "xlsx:Calc MS Excel 2007 XML";
const VALUE = 4;

/** A sheet with another entry in the row of a symbol, and no saved value of a formula. */
function entered(sheet: Sheet, symbol: string, entry: string | number | null): Sheet {
  return {
    ...sheet,
    rows: sheet.rows.map((cells) =>
      cells[0] === symbol
        ? cells.map((cell, c): Cell => (c === VALUE ? { value: entry, look: "input" } : cell))
        : cells,
    ),
  };
}

const bare = (sheet: Sheet): Sheet => ({
  ...sheet,
  rows: sheet.rows.map((cells) =>
    cells.map((cell) =>
      typeof cell === "object" && cell?.formula !== undefined ? { ...cell, value: null } : cell,
    ),
  ),
});

describe.skipIf(officeAbsent)("a workbook with other entries, recalculated by LibreOffice", () => {
  let books: Uint8Array[];
  let sheets: Sheet[];
  let groups: ReturnType<typeof groupRatios>;
  // f'c of this form is in psi, h_ef in inches.
  const entries = [
    ["f'c", "23.5 MPa"],
    ["f'c", null],
    ["h_ef", 1],
    ["n_x", 2],
  ] as const;
  beforeAll(async () => {
    const { tests } = await readDataset("datasets/demo");
    const all = compare(tests, code("aci318-19"), { level: "nominal" });
    const comparison = {
      ...all,
      // Failures alone: hand calculation and library then answer one question.
      evidence: all.evidence.filter(
        ({ mode, bound }) => ["bond", "pryout"].includes(mode) && !bound,
      ),
    };
    groups = groupRatios(comparison, ["mode", "bar_material"]);
    const bond = groups.filter(({ by }) => by["mode"] === "bond");
    sheets = handCheckSheets({
      title: "t",
      caution: "Research use only.",
      checks: handChecksOf(comparison, typicalEvidence(bond).slice(0, 1), () => 0.75),
      groups: { comparison, of: groups },
    });
    const last = sheets.length - 1;
    const changed = entries.map(([symbol, entry]) =>
      sheets.map((sheet, n) => (n === last ? entered(sheet, symbol, entry) : sheet)),
    );
    books = allThroughOffice(
      [sheets, ...changed].map((book) => workbookBytes("t", book.map(bare))),
      "xlsx",
      XLSX,
    );
  }, 200_000);

  const rowOf = (book: number, symbol: string): readonly string[] =>
    sheetRows(books[book]!, sheets.at(-1)!.name).rows.find((row) => row[0] === symbol)!;

  it("says that all is well where nothing was changed", () => {
    expect(rowOf(0, "entries").slice(1, 5)).toEqual(["every entry is a number", "", "", "0"]);
    expect(rowOf(0, "limits")[1]).toBe("the provision applies");
    expect(rowOf(0, "ratio now")[VALUE]).toBe(rowOf(0, "ratio")[VALUE]);
  });

  it.each([
    [1, "a text with a unit"],
    [2, "a blank"],
  ])("book %i: %s names its cell and withholds the ratio, also in the group", (book) => {
    const at = sheets.at(-1)!.rows.findIndex((cells) => cells[0] === "f'c");
    expect(rowOf(book, "entries")[1]).toBe(`a number is needed in E${at + 1}`);
    for (const symbol of ["ratio now", "capacity", "ratio", "factored capacity"])
      expect(rowOf(book, symbol)[VALUE]).toBe("#N/A");
    const { rows } = sheetRows(books[book]!, "Groups");
    expect(rows.filter((row) => row[VALUE] === "#N/A").length).toBeGreaterThan(3);
    const byHand = sheetRows(books[book]!, "Series").rows;
    expect(byHand.filter((row) => row[3] === "#N/A").length).toBeGreaterThan(5);
  });

  it("judges the limits anew: an embedment below 4 diameters is reported", () => {
    const limit = (book: number): readonly string[] =>
      sheetRows(books[book]!, sheets.at(-1)!.name).rows.find(
        (row) => row[0] === "reported only" && row[1]!.includes("4 to 20 diameters"),
      )!;
    expect(limit(0)[VALUE]).toBe("holds");
    expect(limit(3)[VALUE]).toBe("fails");
    expect(limit(3)[8]).toBe("differs");
    expect(Number(rowOf(3, "ratio now")[VALUE])).toBeGreaterThan(0);
  });

  it("multiplies the capacity by the factor of the proposal", () => {
    const [capacity, factored] = ["capacity", "factored capacity"].map((symbol) =>
      Number(rowOf(0, symbol)[VALUE]),
    );
    expect(factored).toBeCloseTo(0.75 * capacity!, 9);
    expect(Number(rowOf(0, "ratio with the factor")[VALUE])).toBeCloseTo(
      Number(rowOf(0, "ratio")[VALUE]) / 0.75,
      9,
    );
  });

  it("has a rule for every entry, and whole numbers for counted bars", () => {
    const { entries: rules = [], rows } = sheets.at(-1)!;
    const inputs = rows.flatMap((cells, r) => {
      const cell = cells[VALUE];
      return typeof cell === "object" && cell?.look === "input" ? [`E${r + 1}`] : [];
    });
    expect(rules.map(({ cell }) => cell)).toEqual(inputs);
    const counted = rows.flatMap((cells, r) =>
      typeof cells[0] === "string" && ["n_x", "n_y"].includes(cells[0]) ? [`E${r + 1}`] : [],
    );
    expect(rules.filter(({ kind }) => kind === "whole").map(({ cell }) => cell)).toEqual(counted);
    const text = Buffer.from(workbookBytes("t", sheets)).toString("latin1");
    expect(text.startsWith("PK")).toBe(true);
  });

  it("the bounds by hand are those of the formulas, and near the library's", () => {
    const { rows } = sheetRows(books[0]!, "Series");
    const saved = sheets.find(({ name }) => name === "Series")!.rows;
    let [numbers, judged] = [0, 0];
    saved.forEach((cells, r) =>
      cells.forEach((cell, c) => {
        if (typeof cell !== "object" || cell?.formula === undefined) return;
        const [ours, theirs] = [Number(cell.value), Number(rows[r]![c])];
        expect(
          Math.abs(theirs - ours),
          `row ${r + 1}: ${rows[r]!.join(" | ")}`,
        ).toBeLessThanOrEqual(c === 5 ? 0.1001 : 1e-9 * Math.max(1, Math.abs(ours)));
        numbers += 1;
      }),
    );
    expect(numbers).toBeGreaterThan(200);
    for (const group of groups) {
      if (group.series < 6) continue;
      const start = rows.findIndex((row) => row[0] === group.label);
      for (const row of rows.slice(start + 1, start + 200)) {
        if (!row[0]) break;
        if (row[0].startsWith("lower bound")) {
          judged += 1;
          expect(Math.abs(Number(row[5])), `${group.label}: ${row.join(" | ")}`).toBeLessThan(10);
        }
      }
    }
    expect(judged).toBeGreaterThan(2);
  });
});
