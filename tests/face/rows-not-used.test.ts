import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { rowsNotUsed, rowsNotUsedLine } from "../../kernel-lib/src/face/rows-not-used";
import { openStudy } from "../../kernel-lib/src/face/open-study";
import type { Study } from "../../kernel-lib/src/face/study";
import { TestTable, testsCsv } from "../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";

// The expectations are fixed by the file written here: a header, then six invented tests in
// lines 2 to 7, of which line 3 has an embedment "~45", line 5 the material "glass", and line 6 a
// reason to be excluded.
describe("rows that a study does not use", () => {
  const project = mkdtempSync(join(tmpdir(), "study-"));
  let study: Study;
  beforeAll(async () => {
    const own = join(project, "datasets", "own");
    mkdirSync(own, { recursive: true });
    writeFileSync(join(project, "package.json"), "{}");
    writeFileSync(join(project, "package-lock.json"), "{}");
    const six = TestTable.fromRows(
      generateDemonstration(1)
        .tests.slice(0, 6)
        .map((row, i) => (i === 4 ? { ...row, excluded: "bar was bent" } : row)),
    );
    const [header = "", ...lines] = testsCsv(six).trimEnd().split("\n");
    const names = header.split(",");
    const change = (line: number, column: string, value: string): void => {
      const cells = (lines[line - 2] ?? "").split(",");
      cells[names.indexOf(column)] = value;
      lines[line - 2] = cells.join(",");
    };
    change(3, "embedment_mm", "~45");
    change(5, "bar_material", "glass");
    writeFileSync(join(own, "tests.csv"), [header, ...lines, ""].join("\n"));
    study = await openStudy({ data: own, folder: project, keep: "none" });
  });
  afterAll(() => rmSync(project, { recursive: true, force: true }));

  test("each is named with file, line and reason", () => {
    const rows = rowsNotUsed(study.data);
    expect(rows.map(({ status, place }) => `${status} ${place}`)).toEqual([
      "rejected own/tests.csv, line 3",
      "rejected own/tests.csv, line 5",
      "excluded own/tests.csv, line 6",
    ]);
    expect(rows[0]?.reason).toContain("~45");
    expect(rows[1]?.reason).toContain("glass");
    expect(rows[2]?.reason).toBe("bar was bent");
  });

  test("one line tells how many, the first of each kind, and where all are", () => {
    const line = rowsNotUsedLine(rowsNotUsed(study.data)) ?? "";
    expect(line).toMatch(
      /^Not used: 2 rows rejected \(first own\/tests\.csv, line 3: [^\n]*~45[^\n]*\); 1 row excluded \(own\/tests\.csv, line 6: bar was bent\)\. All of them: audit\(\)\.table\("excluded"\) of the study\.$/,
    );
    expect(study.audit().table("excluded").rows).toHaveLength(3);
    expect(rowsNotUsedLine([])).toBeUndefined();
  });

  test("it is printed in a notebook only", async () => {
    const hook = Symbol.for("code-comparison.show");
    const world = globalThis as Record<symbol, unknown>;
    const printed: string[] = [];
    const stdout = vi.spyOn(process.stdout, "write").mockImplementation((text) => {
      printed.push(String(text));
      return true;
    });
    try {
      await openStudy({ data: study.folders, folder: project, keep: "none" });
      expect(printed.join("")).not.toContain("Not used");
      world[hook] = () => undefined;
      await openStudy({ data: study.folders, folder: project, keep: "none" });
    } finally {
      stdout.mockRestore();
      delete world[hook];
    }
    expect(printed.join("").match(/Not used: 2 rows rejected/g)).toHaveLength(1);
  });

  test("the colophon lists them", () => {
    const items = study.basis().column("item");
    expect(items.slice(-3)).toEqual([
      "rejected: own/tests.csv, line 3",
      "rejected: own/tests.csv, line 5",
      "excluded: own/tests.csv, line 6",
    ]);
    expect(study.basis().column("value").at(-1)).toBe("bar was bent");
  });
});
