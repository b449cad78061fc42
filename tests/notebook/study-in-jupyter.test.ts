import { spawnSync } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import {
  codeCells,
  compareOutputs,
  installKernel,
  readNotebook,
} from "../../kernel-lib/src/notebook";
import { makeScratchCopy } from "../../kernel-lib/src/notebook/review/scratch-copy";
import { scratchFolder } from "./notebook-in-scratch";

const PYTHON = "/usr/bin/python3";
const FOLDER = join(__dirname, "..", "..", "notebooks");
const names = existsSync(FOLDER)
  ? readdirSync(FOLDER).filter(
      (name) => name.endsWith(".ipynb") && !name.endsWith(".partial.ipynb"),
    )
  : [];
const hasJupyter =
  existsSync(PYTHON) &&
  spawnSync(PYTHON, ["-c", "import nbclient, nbformat, jupyter_client"]).status === 0;
if (!hasJupyter)
  console.log(
    "skipped: the study's notebooks in Jupyter's own client (python3-nbclient is not installed)",
  );
if (names.length === 0) console.log("skipped: there are no notebooks yet");

const EXECUTE = `import sys, os, nbformat, nbclient
f = sys.argv[1]
nb = nbformat.read(f, as_version=4)
nbclient.NotebookClient(nb, kernel_name="code-comparison", timeout=300, record_timing=False, resources={"metadata": {"path": os.path.dirname(f)}}).execute()
nbformat.write(nb, f)`;

test.skipIf(!hasJupyter || names.length === 0).each(names.length > 0 ? names : ["no notebook"])(
  "Jupyter's own client gets what is recorded in %s",
  { timeout: 480_000 },
  async (name) => {
    const data = scratchFolder();
    await installKernel(data);
    const scratch = await makeScratchCopy(join(FOLDER, name), ["datasets"]);
    try {
      const copy = join(scratch.folder, name);
      const done = spawnSync(PYTHON, ["-W", "ignore", "-c", EXECUTE, copy], {
        encoding: "utf8",
        // Forms for print are left out, as in a review; what a cell shows is the same.
        env: { ...process.env, JUPYTER_DATA_DIR: data, CODE_COMPARISON_KEEP: "plain" },
        cwd: dirname(copy),
      });
      expect(done.status, done.stderr).toBe(0);
      const recorded = codeCells(await readNotebook(join(FOLDER, name)));
      const rerun = codeCells(await readNotebook(copy));
      const changed = recorded.flatMap(({ cell, number, title }, index) => {
        const comparison = compareOutputs(cell.outputs, rerun[index]?.cell.outputs ?? [], 1e-9);
        return comparison.verdict === "changed"
          ? [`[${number}] ${title}: ${JSON.stringify(comparison.differences.slice(0, 3))}`]
          : [];
      });
      expect(changed).toEqual([]);
    } finally {
      await scratch.remove();
    }
  },
);
