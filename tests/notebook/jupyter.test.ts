import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { installKernel, readNotebook, reviewNotebook, runNotebook, wholeText } from "../../kernel-lib/src/notebook";
import type { NotebookCell } from "../../kernel-lib/src/notebook";
import { fixtureCopy, notebookOf, scratchFolder } from "./notebook-in-scratch";

const PYTHON = "/usr/bin/python3";
const hasJupyter = existsSync(PYTHON) && spawnSync(PYTHON, ["-c", "import nbclient, nbformat, jupyter_client"]).status === 0;
if (!hasJupyter) console.log("skipped: Jupyter's own client (python3-nbclient is not installed)");

// nbclient.NotebookClient(nb, kernel_name="code-comparison", resources=...).execute()
const EXECUTE = `import sys, os, nbformat, nbclient
f = sys.argv[1]
nb = nbformat.read(f, as_version=4)
nbclient.NotebookClient(nb, kernel_name="code-comparison", timeout=60, record_timing=False, resources={"metadata": {"path": os.path.dirname(f)}}).execute()
nbformat.validate(nb)
nbformat.write(nb, f)`;

function printed(cell: NotebookCell | undefined): string {
  const outputs = cell?.cell_type === "code" ? cell.outputs : [];
  return outputs.map((output) => (output.output_type === "stream" ? wholeText(output.text) : `<${output.output_type}>`)).join("");
}

describe.skipIf(!hasJupyter)("Jupyter's own client", () => {
  const data = scratchFolder();
  beforeAll(async () => void (await installKernel(data)));

  function executeInJupyter(file: string): { status: number | null; stderr: string } {
    return spawnSync(PYTHON, ["-c", EXECUTE, file], { encoding: "utf8", env: { ...process.env, JUPYTER_DATA_DIR: data } });
  }

  test("executes a notebook in our kernel, and we call the result the same", { timeout: 120_000 }, async () => {
    const file = fixtureCopy("same");
    const done = executeInJupyter(file);
    expect(done.status, done.stderr).toBe(0);
    const review = await reviewNotebook(file);
    expect(review.cells.map(({ verdict }) => verdict)).toEqual(["same", "same", "same", "same"]);
    expect(review.notes).toEqual([]);
  });

  test("its outputs are ours, value for value, and nothing it prints is lost", { timeout: 120_000 }, async () => {
    const cells = ["console.log('a');\nconsole.error('b');\nconst x = 0.1 + 0.2;\nx", "for (let i = 0; i < 20000; i++) console.log(i);"];
    const [theirs, ours] = [notebookOf(cells, "theirs.ipynb"), notebookOf(cells, "ours.ipynb")];
    const done = executeInJupyter(theirs);
    expect(done.status, done.stderr).toBe(0);
    await runNotebook(ours);
    const [their, our] = [(await readNotebook(theirs)).cells, (await readNotebook(ours)).cells];
    expect(their[0]).toEqual(our[0]);
    // nbclient stores every message of a stream by itself.
    expect(printed(their[1])).toBe(printed(our[1]));
    expect(printed(their[1])).toBe(Array.from({ length: 20000 }, (_, index) => `${index}\n`).join(""));
  });

  test("hears our error messages as errors", { timeout: 120_000 }, () => {
    const done = executeInJupyter(notebookOf(["const depth = -3;\nthrow new RangeError(`got ${depth}`);"]));
    expect(done.status).not.toBe(0);
    expect(done.stderr).toContain("RangeError: got -3");
    expect(done.stderr).toContain("> 2 | throw new RangeError");
  });
});
