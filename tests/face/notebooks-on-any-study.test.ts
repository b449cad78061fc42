import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import * as library from "../../kernel-lib/src/index";
import { bundleOf } from "../../kernel-lib/src/face/show";
import { project } from "../house/project-files";
import { runCells } from "./notebook-cells";
import { SMALL_STUDIES, writeSmallStudy } from "./small-studies";

const notebooks = readdirSync(join(project, "notebooks")).filter((name) => name.endsWith("ipynb"));
const wanted = process.env["STUDY"];
const studies = SMALL_STUDIES.filter(({ name }) => wanted === undefined || name === wanted);
const only = process.env["NOTEBOOK"] ?? "";

const before = process.cwd();
process.env["CODE_COMPARISON_KEEP"] = "plain";
const made: string[] = [];
afterAll(() => {
  process.chdir(before);
  made.forEach((folder) => rmSync(folder, { recursive: true, force: true }));
});

describe.each(studies)("a study with $name", (study) => {
  const folder = writeSmallStudy(mkdtempSync(join(tmpdir(), "study-")), study);
  made.push(folder);
  it.each(notebooks.filter((name) => name.startsWith(only)))(
    "%s",
    async (notebook) => {
      process.chdir(folder);
      const shown: string[] = [];
      const started = performance.now();
      const run = await runCells(
        join(project, "notebooks", notebook),
        library,
        async (...values) => {
          for (const value of values) shown.push(String((await bundleOf(value))["text/plain"]));
        },
      );
      if (process.env["SECONDS"])
        console.log(study.name, notebook, ((performance.now() - started) / 1000).toFixed(1));
      expect(run.failure).toBeNull();
      const text = shown.join("\n");
      expect(text).not.toMatch(/NaN|undefined|\[object Object\]/);
    },
    600_000,
  );
});
