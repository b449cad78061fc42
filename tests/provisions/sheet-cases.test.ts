import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { WORKED_LENGTHS } from "./worked/lengths";
import { WORKED_RULES } from "./worked/rules";
import { SHEET_CAPACITIES } from "./worked/sheet-capacities";
import { numbersOf, SHEET_CASES } from "./worked/sheet-cases";
import { SHEET_NUMBERS } from "./worked/sheet-numbers";

// The sheet lies beside the project while it is built, and is no part of it.
const sheet = new URL("../../../shared/PROVISIONS.md", import.meta.url);

describe("every worked example of the equation sheet", () => {
  it.each(SHEET_CASES.map((one) => [one.id, one] as const))("%s has its numbers checked", (id) => {
    expect(Object.values(numbersOf(id)).reduce((a, b) => a + b, 0)).toBeGreaterThan(0);
  });

  it("stands in the list under its kind, and none is used that the list does not name", () => {
    const kinds = new Map(SHEET_CASES.map(({ id, kind }) => [id, kind]));
    const used = [...SHEET_CAPACITIES, ...WORKED_LENGTHS, ...WORKED_RULES].filter(({ id }) =>
      /^[WC]\d/.test(id),
    );
    expect(
      used.filter(({ id, kind }) => kinds.get(id) !== kind).map(({ id, kind }) => `${id} ${kind}`),
    ).toEqual([]);
    expect(SHEET_NUMBERS.filter(({ id }) => !kinds.has(id))).toEqual([]);
  });

  it.skipIf(!existsSync(sheet))(
    "is that of the sheet, none missing (skipped where the sheet is not there)",
    () => {
      const ids = [
        ...readFileSync(sheet, "utf8").matchAll(/^(?:\| (W\d+[a-z]?) \||- (C\d+) )/gm),
      ].map(([, w, c]) => w ?? c);
      expect(ids.length).toBeGreaterThan(10);
      expect(SHEET_CASES.map(({ id }) => id)).toEqual(ids);
    },
  );
});

describe("numbers of the worked examples that stand in no other table", () => {
  it.each(
    SHEET_NUMBERS.map(
      (one) =>
        [
          `${one.id}: ${one.what}${one.differs ? `, printed ${one.printed[0]} not met` : ""}`,
          one,
        ] as const,
    ),
  )("%s", (_, { printed: [value, within], found, differs }) => {
    const number = found();
    const off = Math.abs(number - value);
    if (differs) {
      expect(Math.abs(number - differs.ours[0]), `${number}`).toBeLessThanOrEqual(differs.ours[1]);
      // A difference that is no more would be a claim out of date.
      expect(off).toBeGreaterThan(within);
    } else expect(off, `${number}, printed ${value}`).toBeLessThanOrEqual(within + 1e-12);
  });
});
