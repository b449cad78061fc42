import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import * as library from "../../kernel-lib/src/index";
import { svgToPng } from "../../kernel-lib/src/exports/images";
import { bundleOf } from "../../kernel-lib/src/face/show";
import { project } from "../house/project-files";
import { runCells } from "./notebook-cells";
import { SMALL_STUDIES, writeSmallStudy } from "./small-studies";

/** Figures are also drawn as pictures, which an empty one once broke. */
async function shownAs(value: unknown): Promise<string> {
  const bundle = await bundleOf(value);
  const svg = bundle["image/svg+xml"];
  if (typeof svg === "string") await svgToPng(svg, { dpi: 30 });
  return String(bundle["text/plain"]);
}

const notebooks = readdirSync(join(project, "notebooks")).filter((name) => name.endsWith("ipynb"));
// All studies take some twenty minutes of one core (5,000 rows most of them): the bench's page says
// how to run them. The smallest study is the one in which most is missing.
const all = process.env["ALL_STUDIES"] !== undefined;
const studies = SMALL_STUDIES.filter(({ name }) => all || name === "one test");

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
  it.each(notebooks)(
    "%s",
    async (notebook) => {
      process.chdir(folder);
      const shown: string[] = [];
      const run = await runCells(
        join(project, "notebooks", notebook),
        library,
        async (...values) => {
          for (const value of values) shown.push(await shownAs(value));
        },
      );
      expect(run.failure).toBeNull();
      expect(run.ran).toBe(run.cells);
      const text = shown.join("\n");
      expect(text).not.toMatch(/NaN|undefined|\[object Object\]/);
    },
    600_000,
  );
});
