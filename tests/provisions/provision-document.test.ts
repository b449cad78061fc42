import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { CODES, DEVELOPMENT_LENGTHS } from "../../kernel-lib/src/provisions";
import { codeCards } from "../../kernel-lib/src/tables";
import { sheetCaseList } from "./worked/sheet-cases";
import { provisionChecks, uncheckedProvisions, withoutOutsideCheck } from "./check-index";

const docs = new URL("../../kernel-lib/docs/", import.meta.url).pathname;
const checks = provisionChecks();
// Written by `npm run derived`, like the golden values.
const WRITTEN = [
  ["provision-checks.json", `${JSON.stringify(checks, null, 2)}\n`],
  ["provisions.md", codeCards(CODES, checks)],
  ["worked-cases.md", sheetCaseList()],
] as const;
if (process.env["WRITE_DERIVED"] === "1")
  for (const [name, text] of WRITTEN) writeFileSync(docs + name, text);

describe("the list of provisions", () => {
  it.each(WRITTEN)("%s is what the provisions and the tests' cases give", (name, text) => {
    expect(existsSync(docs + name), `${name} is not there: npm run derived`).toBe(true);
    const [committed, now] = [readFileSync(docs + name, "utf8").split("\n"), text.split("\n")];
    const first = now.findIndex((line, k) => line !== committed[k]);
    if (first >= 0 || committed.length !== now.length)
      expect.fail(
        `${name} differs from line ${first + 1}; where that is meant: npm run derived\n  in the file: ${committed[first] ?? ""}\n  now: ${now[first] ?? ""}`,
      );
  });

  it("has a case with a number for every provision, length, placing rule, function and lookup, and one from outside", () => {
    expect(uncheckedProvisions()).toEqual([]);
    // What comes to stand here is marked "no outside check" in the cards.
    expect(withoutOutsideCheck()).toEqual([]);
  });

  it("has a card for each code that says what it covers, what it leaves out and what is to be checked", () => {
    for (const code of CODES) {
      const card = codeCards([code], checks);
      expect(card).toContain(`## ${code.id}`);
      expect(code.covers.endsWith("."), code.id).toBe(true);
      expect(code.gaps.length, code.id).toBeGreaterThan(0);
      expect(card.includes("To be checked against a licensed copy"), code.id).toBe(
        [
          ...code.provisions,
          ...DEVELOPMENT_LENGTHS.filter((rule) => rule.code.id === code.id).map(
            ({ definition }) => definition,
          ),
        ].some(({ confidence }) => confidence === "M"),
      );
      expect(card).not.toMatch(/undefined|NaN|not listed/);
    }
  });

  it("says of what is from memory whether it was searched for in vain, and clauses with one doubt once", () => {
    const doubts = (id: string): string =>
      codeCards(
        CODES.filter((one) => one.id === id),
        checks,
      ).split("**To be checked against a licensed copy**")[1] ?? "";
    expect(doubts("jsce-1997").trim()).toBe(
      "- development, frp-rupture: the whole equation (searched in published pages in November 2026, not found)",
    );
    expect(doubts("csa-s806-12")).not.toContain("searched");
    const searched = [
      ...CODES.flatMap(({ provisions }) => provisions),
      ...DEVELOPMENT_LENGTHS.map(({ definition }) => definition),
    ].filter((one) => one.searched !== undefined);
    expect(searched.length).toBeGreaterThan(20);
    expect(searched.filter(({ confidence }) => confidence !== "M").map(({ id }) => id)).toEqual([]);
  });
});
