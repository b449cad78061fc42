import { readFileSync } from "node:fs";
import { compileFunction } from "node:vm";
import { describe, expect, it } from "vitest";
import * as reliability from "../../kernel-lib/src/proposals/reliability";
import * as regression from "../../kernel-lib/src/regression";
import * as statistics from "../../kernel-lib/src/statistics";

const file = new URL("../../kernel-lib/docs/statistics-examples.md", import.meta.url);
const blocks = [...readFileSync(file, "utf8").matchAll(/```ts\n([\s\S]*?)```/g)].map(
  ([, text = ""]) => text,
);
const known = { ...statistics, ...regression, ...reliability };

/**
 * Runs a block of the page: each line that ends in a number must give it, to the digits printed.
 */
function run(block: string): { line: string; printed: string; given: number }[] {
  const results: { line: string; printed: string; given: number }[] = [];
  const body = block.split("\n").map((line) => {
    const [, call, printed] = /^(.*\S) \/\/ (-?[\d.]+)$/.exec(line) ?? [];
    return call === undefined
      ? line
      : `note(${JSON.stringify(call)}, "${printed ?? ""}", ${call});`;
  });
  const note = (line: string, printed: string, given: number): void =>
    void results.push({ line, printed, given });
  const names = [...Object.keys(known), "note"];
  (compileFunction(body.join("\n"), names) as (...values: unknown[]) => void)(
    ...Object.values(known),
    note,
  );
  return results;
}

describe("the page of statistics that the notebooks do not show", () => {
  const results = blocks.flatMap(run);
  it.each(results)("$line gives $printed", ({ printed, given }) => {
    expect(given.toFixed(printed.split(".")[1]?.length ?? 0)).toBe(printed);
  });
  it("leaves no call without its number", () => {
    expect(results.length).toBeGreaterThan(25);
    const bare = blocks
      .join("")
      .split("\n")
      .filter((line) => line !== "" && !/^const |\/\/ -?[\d.]+$/.test(line));
    expect(bare).toEqual([]);
  });
});
