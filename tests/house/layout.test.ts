import { describe, expect, it } from "vitest";
import { textOf, trackedFiles } from "./project-files";

const tracked = trackedFiles();
if (tracked === null) console.log("skipped: the layout of the project, because this is no git checkout");

describe.skipIf(tracked === null)("layout", () => {
  const files = tracked ?? [];

  it("keeps the top level to the four folders, two guides, the package files and dot-files", () => {
    const allowed = ["notebooks", "kernel-lib", "datasets", "tests", "README.md", "DEVELOPERS.md", "package.json", "package-lock.json"];
    expect([...new Set(files.map((file) => file.split("/")[0]!))].filter((name) => !name.startsWith(".") && !allowed.includes(name))).toEqual([]);
  });
  it("has no file of more than 220 lines of code", () => {
    const long = files.filter((file) => /\.(ts|mts|cts|js|mjs|cjs)$/.test(file))
      .map((file) => ({ file, lines: textOf(file).replace(/\n$/, "").split("\n").length })).filter(({ lines }) => lines > 220);
    expect(long).toEqual([]);
  });
  it("names every file and folder by what it holds", () => {
    const empty = /^(?:.*-)?(?:utils?|helpers?|common|misc|shared|stuff)$/i;
    expect(files.filter((file) => file.split("/").some((part) => empty.test(part.replace(/\..*$/, ""))))).toEqual([]);
  });
  it("tracks nothing that is built or generated", () => {
    expect(files.filter((file) => /(^|\/)(node_modules|dist|coverage|exports\/[^/]*\.(pdf|docx|xlsx)|\.cache|\.ipynb_checkpoints)\//.test(file) || /\.(tsbuildinfo|partial\.ipynb)$/.test(file))).toEqual([]);
  });
  it("gives every room of the library a folder of tests", () => {
    const rooms = new Set(files.filter((file) => /^kernel-lib\/src\/[^/]+\//.test(file)).map((file) => file.split("/")[2]!));
    expect(rooms.size).toBeGreaterThan(10);
    // The two rooms on top are tested through what they call: commands with their rooms, the notebooks' face by the notebooks.
    const untested = [...rooms].filter((room) => !["cli", "face"].includes(room) && !files.some((file) => file.startsWith(`tests/${room}/`) && file.endsWith(".test.ts")));
    expect(untested).toEqual([]);
  });
});
