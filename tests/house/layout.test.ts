import { describe, expect, it } from "vitest";
import { textOf, trackedFiles } from "./project-files";

/** Files of more than 250 lines, each group with the reason why it is left whole. */
const LONG_FILES: readonly string[] = [
  // Tables of data: cases, rows and drawings one after the other, which no cut makes clearer.
  "tests/figures/gallery/studies.ts",
  "tests/provisions/golden/grid.ts",
  "tests/provisions/recomputed/cases.ts",
  "tests/provisions/recomputed/older.ts",
  "tests/provisions/worked/by-hand.ts",
  "tests/provisions/worked/rules.ts",
  "tests/provisions/worked/sheet-numbers.ts",
  // Tests whose subjects share one set-up (rows, packet, workbook, browser, bench).
  "tests/bench/verdicts.mjs",
  "tests/exports/workbook/hand-check-workbook.test.ts",
  "tests/notebook/review-page-browser.test.ts",
  "tests/provisions/laws.test.ts",
  "tests/provisions/plan-and-continuity.test.ts",
  "tests/statistics/series/series-bound.test.ts",
];

/** The numbers of lines that are too wide for another reason than a text in them. */
function wideLines(source: string): number[] {
  let inTemplate = false;
  return source.split("\n").flatMap((line, i) => {
    const texts = /"(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*'/g;
    const bare = line.replace(texts, "").replace(/`(?:[^`\\]|\\.)*`/g, "");
    const wasIn = inTemplate;
    if ((line.replace(texts, "").match(/(?<!\\)`/g)?.length ?? 0) % 2 === 1)
      inTemplate = !inTemplate;
    const told = wasIn || inTemplate || /^\s*\* /.test(line) || line.includes("`");
    return [...bare].length > 110 && !told && !/\/.{30,}\//.test(line) ? [i + 1] : [];
  });
}

const tracked = trackedFiles();
if (tracked === null)
  console.log("skipped: the layout of the project, because this is no git checkout");

describe.skipIf(tracked === null)("layout", () => {
  const files = tracked ?? [];

  it("keeps the top level to the four folders, two guides, the package files and dot-files", () => {
    const allowed = [
      "notebooks",
      "kernel-lib",
      "datasets",
      "tests",
      "README.md",
      "DEVELOPERS.md",
      "package.json",
      "package-lock.json",
    ];
    expect(
      [...new Set(files.map((file) => file.split("/")[0]!))].filter(
        (name) => !name.startsWith(".") && !allowed.includes(name),
      ),
    ).toEqual([]);
  });
  it("has no file of more than 250 lines of code but those listed", () => {
    const long = files
      .filter((file) => /\.(ts|mts|cts|js|mjs|cjs)$/.test(file))
      .filter((file) => textOf(file).replace(/\n$/, "").split("\n").length > 250);
    expect(long.filter((file) => !LONG_FILES.includes(file))).toEqual([]);
    expect(LONG_FILES.filter((file) => !long.includes(file))).toEqual([]);
  });
  it("has no line of more than 110 characters but texts and examples", () => {
    const wide = files
      .filter((file) => /^(kernel-lib|tests)\/.*\.(ts|mts|js|mjs|cjs)$/.test(file))
      .flatMap((file) => wideLines(textOf(file)).map((line) => `${file}:${line}`));
    expect(wide).toEqual([]);
  });
  it("names every file and folder by what it holds", () => {
    const empty = /^(?:.*-)?(?:utils?|helpers?|common|misc|shared|stuff)$/i;
    expect(
      files.filter((file) => file.split("/").some((part) => empty.test(part.replace(/\..*$/, "")))),
    ).toEqual([]);
  });
  it("tracks nothing that is built or generated", () => {
    expect(
      files.filter(
        (file) =>
          /(^|\/)(node_modules|dist|coverage|exports\/[^/]*\.(pdf|docx|xlsx)|\.cache|\.ipynb_checkpoints)\//.test(
            file,
          ) || /\.(tsbuildinfo|partial\.ipynb)$/.test(file),
      ),
    ).toEqual([]);
  });
  it("gives every room of the library a folder of tests", () => {
    const rooms = new Set(
      files
        .filter((file) => /^kernel-lib\/src\/[^/]+\//.test(file))
        .map((file) => file.split("/")[2]!),
    );
    expect(rooms.size).toBeGreaterThan(10);
    // The two rooms on top are tested through what they call: commands with their rooms, the
    // notebooks' face by the notebooks.
    const untested = [...rooms].filter(
      (room) =>
        !["cli", "face"].includes(room) &&
        !files.some((file) => file.startsWith(`tests/${room}/`) && file.endsWith(".test.ts")),
    );
    expect(untested).toEqual([]);
  });
});
