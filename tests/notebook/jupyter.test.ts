import { spawnSync } from "node:child_process";
import { existsSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import {
  installKernel,
  readNotebook,
  reviewNotebook,
  runNotebook,
  wholeText,
} from "../../kernel-lib/src/notebook";
import { readRecord, recordEnvironment } from "../../kernel-lib/src/notebook/run";
import { project } from "../house/project-files";
import type { NotebookCell } from "../../kernel-lib/src/notebook";
import { fixtureCopy, notebookOf, scratchFolder } from "./notebook-in-scratch";

const PYTHON = "/usr/bin/python3";
const hasJupyter =
  existsSync(PYTHON) &&
  spawnSync(PYTHON, ["-c", "import nbclient, nbformat, jupyter_client"]).status === 0;
if (!hasJupyter) console.log("skipped: Jupyter's own client (python3-nbclient is not installed)");

// nbclient.NotebookClient(nb, kernel_name="code-comparison", resources=...).execute()
const EXECUTE = `import sys, os, nbformat, nbclient
f = sys.argv[1]
nb = nbformat.read(f, as_version=4)
nbclient.NotebookClient(nb, kernel_name="code-comparison", timeout=60, record_timing=False, resources={"metadata": {"path": os.path.dirname(f)}}).execute()
nbformat.validate(nb)
nbformat.write(nb, f)`;

// jupyter_client.manager.start_new_kernel, interrupt_kernel, restart_kernel
const DRIVE = `import json, time
from jupyter_client.manager import start_new_kernel
km, kc = start_new_kernel(kernel_name="code-comparison")
def run(code):
    shown = []
    reply = kc.execute_interactive(code, timeout=60, output_hook=lambda m: shown.append(m["content"]["data"]["text/plain"]) if m["msg_type"] == "execute_result" else None)
    return reply["content"], (shown or [None])[0]
out = {}
try:
  run("const kept = 41; const length_mm = 5;")
  waiting = kc.execute("for (;;) {}")
  time.sleep(0.5)
  km.interrupt_kernel()
  out["interrupted"] = kc.get_shell_msg(timeout=30)["content"]["ename"]
  out["kept"] = run("kept")[1]
  run("const count = { steps: 0 };")
  waiting = kc.execute("for (;;) {\\n  await new Promise((done) => setTimeout(done, 5));\\n  count.steps++;\\n}")
  time.sleep(1)
  km.interrupt_kernel()
  out["awaiting"] = kc.get_shell_msg(timeout=30)["content"]["ename"]
  counts = [run("count.steps")[1], (time.sleep(0.2), run("count.steps")[1])[1]]
  out["went_on"] = counts[0] != counts[1] or counts[0] == "0"
  out["history"] = kc.history(hist_access_type="tail", n=1, reply=True, timeout=30)["content"]["history"][0][2]
  out["comms"] = kc.comm_info(reply=True, timeout=30)["content"]["comms"]
  out["completed"] = "length_mm" in kc.complete("leng", reply=True, timeout=30)["content"]["matches"]
  out["hover"] = kc.inspect("length_mm", 3, reply=True, timeout=30)["content"]["data"]["text/plain"]
  out["complete"] = [(kc.is_complete(code), kc.get_shell_msg(timeout=30))[1]["content"]["status"] for code in ["1 + 1", "function f() {", chr(96) + "open", "const = 3"]]
  out["banner"] = "licensed engineer" in kc.kernel_info(reply=True, timeout=30)["content"]["banner"]
  km.restart_kernel(now=False)
  kc.wait_for_ready(timeout=60)
  out["after_restart"] = run("kept")[0]["status"]
  out["result"] = run("1 + 1")[1]
finally:
  kc.stop_channels()
  km.shutdown_kernel(now=True)
print(json.dumps(out))`;

function printed(cell: NotebookCell | undefined): string {
  const outputs = cell?.cell_type === "code" ? cell.outputs : [];
  return outputs
    .map((output) =>
      output.output_type === "stream" ? wholeText(output.text) : `<${output.output_type}>`,
    )
    .join("");
}

describe.skipIf(!hasJupyter)("Jupyter's own client", () => {
  const data = scratchFolder();
  beforeAll(async () => void (await installKernel(data)));

  function executeInJupyter(file: string): { status: number | null; stderr: string } {
    return spawnSync(PYTHON, ["-c", EXECUTE, file], {
      encoding: "utf8",
      env: { ...process.env, JUPYTER_DATA_DIR: data },
    });
  }

  test(
    "executes a notebook in our kernel, and we call the result the same",
    { timeout: 120_000 },
    async () => {
      const file = fixtureCopy("same");
      const done = executeInJupyter(file);
      expect(done.status, done.stderr).toBe(0);
      const review = await reviewNotebook(file);
      expect(review.cells.map(({ verdict }) => verdict)).toEqual(["same", "same", "same", "same"]);
      expect(review.notes).toEqual([]);
    },
  );

  test(
    "its outputs are ours, value for value, and nothing it prints is lost",
    { timeout: 120_000 },
    async () => {
      const cells = [
        "console.log('a');\nconsole.error('b');\nconst x = 0.1 + 0.2;\nx",
        "for (let i = 0; i < 20000; i++) console.log(i);",
      ];
      const [theirs, ours] = [notebookOf(cells, "theirs.ipynb"), notebookOf(cells, "ours.ipynb")];
      const done = executeInJupyter(theirs);
      expect(done.status, done.stderr).toBe(0);
      await runNotebook(ours);
      const [their, our] = [(await readNotebook(theirs)).cells, (await readNotebook(ours)).cells];
      expect(their[0]).toEqual(our[0]);
      // nbclient stores every message of a stream by itself.
      expect(printed(their[1])).toBe(printed(our[1]));
      expect(printed(their[1])).toBe(
        Array.from({ length: 20000 }, (_, index) => `${index}\n`).join(""),
      );
    },
  );

  test(
    "interrupts, restarts, and asks for completion and hover, as Jupyter's page does",
    { timeout: 120_000 },
    () => {
      const done = spawnSync(PYTHON, ["-W", "ignore", "-c", DRIVE], {
        encoding: "utf8",
        timeout: 90_000,
        env: { ...process.env, JUPYTER_DATA_DIR: data },
      });
      expect(done.status, done.stderr).toBe(0);
      expect(JSON.parse(done.stdout)).toEqual({
        interrupted: "Interrupted",
        kept: "41",
        after_restart: "error",
        result: "2",
        awaiting: "Interrupted",
        went_on: false,
        history: "count.steps",
        comms: {},
        complete: ["complete", "incomplete", "incomplete", "invalid"],
        completed: true,
        hover: "const length_mm: 5",
        banner: true,
      });
    },
  );

  test(
    "a notebook of its own is reviewable without a run of ours, and says itself what it was run with",
    { timeout: 180_000 },
    async () => {
      // As the classic page of notebook 6.4 writes it: format 4.4, no ids, nothing of ours inside.
      const sources = [
        'import { openStudy } from "kernel-lib";\nconst study = await openStudy({ data: "datasets/demo", keep: "none" });\nstudy.data.tests.length',
        "study.basis()",
      ];
      const file = join(scratchFolder(), "scratch.ipynb");
      const cells = sources.map((source) => ({
        cell_type: "code",
        metadata: {},
        source,
        outputs: [],
        execution_count: null,
      }));
      writeFileSync(file, JSON.stringify({ nbformat: 4, nbformat_minor: 4, metadata: {}, cells }));
      const done = executeInJupyter(file);
      expect(done.status, done.stderr).toBe(0);
      const now = await recordEnvironment(project, ["datasets"]);
      expect(readRecord(await readNotebook(file))).toEqual(now);
      const review = await reviewNotebook(file);
      expect(review).toMatchObject({ reproduced: true, reasons: [] });
    },
  );

  test("hears our error messages as errors", { timeout: 120_000 }, () => {
    const done = executeInJupyter(
      notebookOf(["const depth = -3;\nthrow new RangeError(`got ${depth}`);"]),
    );
    expect(done.status).not.toBe(0);
    expect(done.stderr).toContain("RangeError: got -3");
    expect(done.stderr).toContain("> 2 | throw new RangeError");
  });
});
