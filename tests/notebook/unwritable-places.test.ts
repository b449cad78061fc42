import { existsSync, lstatSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeReport } from "../../kernel-lib/src/cli/notebook/write-report";
import { makeScratchCopy } from "../../kernel-lib/src/notebook/review/scratch-copy";
import { scratchFolder } from "./notebook-in-scratch";

// A file where a folder should be cannot be written into by anybody, root included.

test("a project that cannot be written is reviewed in a scratch copy elsewhere, which is removed", async () => {
  const project = scratchFolder();
  for (const [name, text] of [
    ["package-lock.json", "{}"],
    [".cache", ""],
    ["a.ipynb", "{}"],
  ] as const)
    writeFileSync(join(project, name), text);
  mkdirSync(join(project, "node_modules"));
  writeFileSync(join(project, "node_modules", "kept.txt"), "kept");
  const copy = await makeScratchCopy(join(project, "a.ipynb"), []);
  expect(copy.project.startsWith(join(tmpdir(), "code-comparison-review-"))).toBe(true);
  expect(existsSync(join(copy.folder, "a.ipynb"))).toBe(true);
  expect(lstatSync(join(copy.project, "node_modules")).isSymbolicLink()).toBe(true);
  await copy.remove();
  expect(existsSync(copy.project)).toBe(false);
  expect(readFileSync(join(project, "node_modules", "kept.txt"), "utf8")).toBe("kept");
});

test("a report that cannot be written is kept elsewhere; the message names both places and the way out", async () => {
  const folder = scratchFolder();
  writeFileSync(join(folder, "out"), "");
  const file = join(folder, "out", "report.html");
  const message = await writeReport(file, "<p>report</p>").then(
    () => "",
    (error: Error) => error.message,
  );
  expect(message).toContain(`${file} cannot be written`);
  expect(message).toContain("--out");
  const kept = /kept in (\S+\.html)\./.exec(message)?.[1] ?? "";
  expect(readFileSync(kept, "utf8")).toBe("<p>report</p>");
  rmSync(kept);
});
