import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { clauseOf, CODES, DEVELOPMENT_LENGTHS } from "../../../kernel-lib/src/provisions";
import { cellsOf, differences, goldenFiles } from "./golden-files";
import { unknownOptions } from "./grid";

// A change of any number shows here and in the diff of these files. Where it is meant: `npm run
// derived` writes them anew, and
// the commit says which numbers moved, by how much and why.
const folder = import.meta.dirname;
const files = goldenFiles();
if (process.env["WRITE_DERIVED"] === "1")
  for (const [name, text] of files) writeFileSync(join(folder, name), text);

describe("golden values", () => {
  it.each([...files])("%s", (name, now) => {
    const path = join(folder, name);
    expect(existsSync(path), `${name} is not there: npm run derived`).toBe(true);
    const committed = readFileSync(path, "utf8");
    if (name === "specimens.csv") expect(now).toBe(committed);
    else expect(differences(name, committed, now).slice(0, 20)).toEqual([]);
  });

  it("has a file for each code and none beside, and options that there are", () => {
    expect(
      readdirSync(folder)
        .filter((name) => name.endsWith(".csv"))
        .sort(),
    ).toEqual([...files.keys()].sort());
    expect(unknownOptions()).toEqual([]);
  });

  it("holds a value of every provision at every level it states, and of every development length", () => {
    const heads = (name: string): string => (files.get(name) ?? "").split("\n")[0] ?? "";
    const missing = CODES.flatMap((code) =>
      code.provisions.flatMap(({ id, levels }) =>
        levels
          .map((level) => `${clauseOf(id)} ${level}`)
          .filter((name) => !heads(`${code.id}.csv`).includes(name))
          .map((name) => `${code.id} ${name}`),
      ),
    );
    expect(missing).toEqual([]);
    for (const { code, definition } of DEVELOPMENT_LENGTHS) {
      const cells = cellsOf(files.get("development-lengths.csv") ?? "").get(
        `${code.id} ${clauseOf(definition.id)}`,
      );
      expect(
        [...(cells?.values() ?? [])].some((cell) => cell !== ""),
        `${code.id} ${definition.id}`,
      ).toBe(true);
    }
  });

  it("names a value that moved, one that came, one that went and a column that is new", () => {
    const committed = 'test_id,17.6.2 nominal,"9.3 design, options"\na-01,100,\na-02,,7\n';
    expect(differences("x.csv", committed, committed)).toEqual([]);
    expect(
      differences(
        "x.csv",
        committed,
        'test_id,17.6.2 nominal,"9.3 design, options",new\na-01,100.00000001,5\na-02,,,1\n',
      ),
    ).toEqual([
      "x.csv, 17.6.2 nominal, row a-01: 100 in the file, 100.00000001 now",
      "x.csv, 9.3 design, options, row a-01: withheld in the file, 5 now",
      "x.csv, 9.3 design, options, row a-02: 7 in the file, withheld now",
      "x.csv, new: not in the file yet",
    ]);
    expect(differences("x.csv", committed, committed.replace("100", "100.00000000000001"))).toEqual(
      [],
    );
  });
});
