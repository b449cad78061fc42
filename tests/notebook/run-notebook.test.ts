import { existsSync, readFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  codeCells,
  readNotebook,
  runNotebook,
  runNotebooks,
  wholeText,
} from "../../kernel-lib/src/notebook";
import type { CellOutput, RunProgress } from "../../kernel-lib/src/notebook";
import { notebookOf } from "./notebook-in-scratch";
import { sharedKernel } from "./shared-kernel";

const startKernel = sharedKernel();

function printed(outputs: readonly CellOutput[]): string {
  return outputs
    .map((output) => (output.output_type === "stream" ? wholeText(output.text) : ""))
    .join("");
}

describe("runNotebook", () => {
  test("records results, prints and displays, and tells each cell's title", async () => {
    const file = notebookOf([
      "// First sum\nconst a: number = 2;\na + 3",
      { cell_type: "markdown", source: "## A heading" },
      "console.log('a is', a);\n({ [Symbol.for('code-comparison.display')]: async () => ({ 'text/html': '<b>x</b>', 'text/plain': 'x', 'image/png': new Uint8Array([1, 2]) }) })",
      "import { readFileSync } from 'node:fs';\nlet n = 0;\nfor (let i = 0; i < 20000; i++) console.log('line', n++);",
      "(globalThis as any)[Symbol.for('code-comparison.show')]({ 'text/plain': 'shown' });\nundefined",
    ]);
    const told: RunProgress[] = [];
    const run = await runNotebook(file, { onProgress: (progress) => told.push(progress) });
    expect(run.status).toBe("done");
    expect(told.flatMap((one) => (one.kind === "cell-finished" ? [one.title] : []))).toEqual([
      "First sum",
      "A heading",
      "A heading",
      "A heading",
    ]);
    const [first, second, third, fourth] = codeCells(await readNotebook(file)).map(
      ({ cell }) => cell,
    );
    expect(first?.outputs).toEqual([
      {
        output_type: "execute_result",
        execution_count: 1,
        metadata: {},
        data: { "text/plain": ["5"] },
      },
    ]);
    expect(printed(second?.outputs ?? [])).toBe("a is 2\n");
    expect(second?.outputs[1]).toMatchObject({
      output_type: "execute_result",
      data: { "text/html": ["<b>x</b>"], "image/png": ["AQI="] },
    });
    const lines = printed(third?.outputs ?? [])
      .trimEnd()
      .split("\n");
    expect(lines.length).toBe(20000);
    expect(lines[19999]).toBe("line 19999");
    expect(fourth?.outputs).toMatchObject([
      { output_type: "display_data", data: { "text/plain": ["shown"] } },
    ]);
    // A rerun writes the same bytes.
    const once = readFileSync(file, "utf8");
    await runNotebook(file);
    expect(readFileSync(file, "utf8")).toBe(once);
  });

  test("a failing cell ends the run, leaves the notebook alone and keeps what ran", async () => {
    const file = notebookOf([
      "const f = (x: number) => {\n  throw new RangeError(`no ${x}`);\n};",
      "'before'",
      "// Call\n\nf(3);",
      "'after'",
    ]);
    const before = readFileSync(file, "utf8");
    const run = await runNotebook(file);
    expect(run.status).toBe("failed");
    expect(run.failure).toMatchObject({
      number: 3,
      title: "Call",
      status: "error",
      message: "RangeError: no 3",
    });
    expect(readFileSync(file, "utf8")).toBe(before);
    const kept = codeCells(await readNotebook(run.written));
    expect(kept[1]?.cell.outputs).toHaveLength(1);
    expect(kept[3]?.cell.outputs).toHaveLength(0);
    const error = kept[2]?.cell.outputs[0];
    expect(error).toMatchObject({ output_type: "error", ename: "RangeError", evalue: "no 3" });
    // The fault lies in line 2 of the first cell, called from line 3 of this one.
    const traceback = error?.output_type === "error" ? error.traceback.join("\n") : "";
    expect(traceback).toContain("cell [1], line 2");
    expect(traceback).toContain("cell [3], line 3");
  });

  test.each([
    ["a synchronous loop", "for (;;) {}"],
    ["a promise that never settles", "await new Promise(() => {});"],
    [
      "a loop after an await",
      "await Promise.resolve();\nawait new Promise((r) => setTimeout(r, 10));\nfor (;;) {}",
    ],
  ])("the time limit stops %s", async (_name, code) => {
    const run = await runNotebook(notebookOf([code]), {
      timeLimitSeconds: 1,
      graceSeconds: 20,
      startKernel,
    });
    expect(run.failure?.status).toBe("timed_out");
    expect(run.failure?.message).toBe(
      "the cell ran longer than its limit of 1 s and was interrupted",
    );
  });

  test("an ended kernel is named: killed from outside", async () => {
    const run = await runNotebook(
      notebookOf(["process.kill(process.pid, 'SIGKILL');\nawait new Promise(() => {});"]),
    );
    expect(run.failure).toMatchObject({
      status: "died",
      message: "the kernel was killed from outside (signal SIGKILL)",
    });
  });

  test("a run stopped by its user keeps what ran and leaves the notebook alone", async () => {
    const file = notebookOf(["'before'", "for (;;) {}"]);
    const before = readFileSync(file, "utf8");
    const stop = new AbortController();
    const run = await runNotebook(file, {
      signal: stop.signal,
      graceSeconds: 20,
      startKernel,
      onProgress: (told) =>
        void (
          told.kind === "cell-started" &&
          told.number === 2 &&
          setTimeout(() => stop.abort(), 200)
        ),
    });
    expect(run.failure?.status).toBe("interrupted");
    expect(readFileSync(file, "utf8")).toBe(before);
    expect(codeCells(await readNotebook(run.written))[0]?.cell.outputs).toHaveLength(1);
  });

  test("an ended kernel is named: process.exit, and memory", async () => {
    const exits = await runNotebook(
      notebookOf(["for (let i = 0; i < 3000; i++) console.log(i);\nprocess.exit(3)"]),
    );
    const outputs = codeCells(exits.notebook)[0]?.cell.outputs ?? [];
    expect(outputs.map(({ output_type }) => output_type)).toEqual(["stream", "error"]);
    expect(outputs[1]).toMatchObject({ ename: "KernelDied" });
    expect(printed(outputs).trimEnd().split("\n")).toHaveLength(3000);
    expect(exits.failure).toMatchObject({
      status: "died",
      message: expect.stringContaining("exit code 3") as string,
    });
    const full = await runNotebook(
      notebookOf(["const hold: number[][] = [];\nfor (;;) hold.push(new Array(1e6).fill(1.5));"]),
      { heapLimitMB: 300 },
    );
    expect(full.failure).toMatchObject({ status: "died", message: "the kernel ran out of memory" });
  });

  test("a rejection nobody handles fails its cell, even when it comes late", async () => {
    const run = await runNotebook(
      notebookOf(["setTimeout(() => { void Promise.reject(new Error('late')); }, 100);\n'ok'"]),
      { startKernel },
    );
    expect(run.failure).toMatchObject({ status: "error", message: "UnhandledRejection: late" });
  });

  test("parameters are put in after their cell, and taken out by the next run", async () => {
    const cells = [
      {
        metadata: { tags: ["parameters"] },
        source: "const seed: number = 1;\nconst code: 'a' | 'b' = 'a';\nconst sizes = [10, 13];",
      },
      "[seed, code, sizes]",
    ];
    const file = notebookOf(cells);
    const run = await runNotebook(file, {
      parameters: { seed: "7", code: "b", sizes: "[16]" },
      startKernel,
    });
    expect(run.status).toBe("done");
    expect(run.notebook.cells[2]).toMatchObject({
      outputs: [{ data: { "text/plain": "[ 7, 'b', [ 16 ] ]" } }],
    });
    await expect(runNotebook(file, { parameters: { sead: "7" } })).rejects.toThrow(
      'no parameter "sead"; it declares: seed, code, sizes',
    );
    await expect(runNotebook(file, { parameters: { seed: "x" } })).rejects.toThrow(
      "expected a number",
    );
    await expect(runNotebook(file, { parameters: { code: "c" } })).rejects.toThrow(
      'expected one of "a", "b"',
    );
    expect((await runNotebook(file, { startKernel })).notebook.cells).toHaveLength(2);
  });

  test("--only records the chosen cells, running those above for their state", async () => {
    const file = notebookOf(["const a = 1;\na", "a + 1", "a + 2"]);
    const out = join(dirname(file), "out");
    const run = await runNotebook(file, { only: "2", out, startKernel });
    expect(run.written).toBe(join(out, basename(file)));
    expect(codeCells(await readNotebook(file)).every(({ cell }) => cell.outputs.length === 0)).toBe(
      true,
    );
    expect(codeCells(run.notebook).map(({ cell }) => cell.outputs.length)).toEqual([0, 1, 0]);
  });
});

describe("runNotebooks", () => {
  test("two at a time: results and progress in the order of the files; a failure stops its notebook only", async () => {
    const files = [
      notebookOf(["await new Promise((r) => setTimeout(r, 1500));\n1"], "slow.ipynb"),
      notebookOf(["throw new Error('no')"], "bad.ipynb"),
      notebookOf(["3"], "last.ipynb"),
    ];
    const told: string[] = [];
    const results = await runNotebooks(files, {
      jobs: 2,
      onProgress: (progress) => void told.push(progress.file),
    });
    expect(results.map((result) => result.status)).toEqual(["done", "failed", "done"]);
    expect([...new Set(told)]).toEqual(files);
    expect(told).toEqual([...told].sort((a, b) => files.indexOf(a) - files.indexOf(b)));
    expect(existsSync(results[1]?.written ?? "")).toBe(true);
  });
});
