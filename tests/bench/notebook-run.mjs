// Speed of the kernel and the runner, beside Jupyter's own client with the Python kernel.
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { availableParallelism } from "node:os";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";

const project = fileURLToPath(new URL("../..", import.meta.url));
const {
  KernelClient,
  executeCell,
  installKernel,
  readNotebook,
  codeCells,
  sourceOf,
  reviewNotebooks,
  runNotebook,
} = createRequire(import.meta.url)("../../kernel-lib/dist/notebook");
mkdirSync(join(project, ".cache"), { recursive: true });
const scratch = mkdtempSync(join(project, ".cache", "bench-"));
let peak = NaN;
const median = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
const tell = (name, ms, wanted) =>
  console.log(
    `${name.padEnd(66)} ${ms.toFixed(0).padStart(6)} ms${wanted ? `  (wanted: at most ${wanted} ms)` : ""}`,
  );

function notebook(name, language, source) {
  const cells = Array.from({ length: 100 }, (_, index) => ({
    cell_type: "code",
    id: `c${index}`,
    metadata: {},
    source: source(index),
    outputs: [],
    execution_count: null,
  }));
  const file = join(scratch, name);
  writeFileSync(
    file,
    JSON.stringify({
      nbformat: 4,
      nbformat_minor: 5,
      metadata: { kernelspec: { name: language, display_name: language } },
      cells,
    }),
  );
  return file;
}

async function measure(times, work) {
  const taken = [];
  for (let time = 0; time < times; time++) taken.push(await work());
  return median(taken);
}

try {
  /** The most memory a kernel ever took, in MB (Linux only). */
  const memoryOf = (kernel) =>
    process.platform === "linux"
      ? Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${kernel.pid}/status`, "utf8"))?.[1]) /
        1024
      : NaN;
  const first = await measure(5, async () => {
    const started = performance.now();
    const kernel = await KernelClient.start({ workingDirectory: scratch });
    await kernel.execute("1 + 1", () => undefined);
    const ms = performance.now() - started;
    peak = memoryOf(kernel);
    await kernel.shutdown();
    return ms;
  });
  tell("kernel start to first result", first, 1300);
  console.log(
    `${"kernel's memory after the first cell".padEnd(66)} ${peak.toFixed(0).padStart(6)} MB  (wanted: at most 400 MB)`,
  );

  const ours = notebook(
    "ours.ipynb",
    "code-comparison",
    (index) => `const v${index} = ${index};\nv${index} + 1`,
  );
  tell(
    "100 trivial cells, our runner, start included",
    await measure(3, async () => 1000 * (await runNotebook(ours)).seconds),
    1600,
  );

  const python = "/usr/bin/python3";
  if (spawnSync(python, ["-c", "import nbclient, ipykernel"]).status === 0) {
    const script =
      "import sys, time, nbformat, nbclient\nnb = nbformat.read(sys.argv[1], as_version=4)\nt = time.perf_counter()\nnbclient.NotebookClient(nb, kernel_name=sys.argv[2]).execute()\nprint(1000 * (time.perf_counter() - t))";
    await installKernel(join(scratch, "data"));
    const env = { ...process.env, JUPYTER_DATA_DIR: join(scratch, "data") };
    const theirs = notebook(
      "theirs.ipynb",
      "python3",
      (index) => `v${index} = ${index}\nv${index} + 1`,
    );
    const run = (file, kernel) => () =>
      Number(
        spawnSync(python, ["-W", "ignore", "-c", script, file, kernel], { env, encoding: "utf8" })
          .stdout,
      );
    tell("  the same, nbclient with the Python kernel", await measure(3, run(theirs, "python3")));
    tell("  the same, nbclient with our kernel", await measure(3, run(ours, "code-comparison")));
  } else {
    console.log("  skipped: nbclient and the Python kernel are not installed");
  }

  const lines = join(scratch, "lines.ipynb");
  writeFileSync(
    lines,
    JSON.stringify({
      nbformat: 4,
      nbformat_minor: 5,
      metadata: {},
      cells: [
        {
          cell_type: "code",
          id: "a",
          metadata: {},
          source: "for (let i = 0; i < 20000; i++) console.log(i)",
          outputs: [],
          execution_count: null,
        },
      ],
    }),
  );
  tell(
    "20,000 printed lines",
    await measure(3, async () => 1000 * (await runNotebook(lines)).cells[0].seconds),
  );

  // In the notebooks' own folder, so that they find their data. Nothing is recorded; what they keep
  // goes to the scratch folder.
  const environment = { CODE_COMPARISON_EXPORTS: join(scratch, "exports") };
  const notebooks = readdirSync(join(project, "notebooks"))
    .filter((name) => /^\d.*(?<!partial)\.ipynb$/.test(name))
    .map((name) => join(project, "notebooks", name));
  let heaviest = { memory: 0, name: "" };
  for (const file of notebooks) {
    const kernel = await KernelClient.start({
      workingDirectory: join(project, "notebooks"),
      environment,
    });
    for (const { cell } of codeCells(await readNotebook(file)))
      await executeCell(
        kernel,
        sourceOf(cell),
        { timeLimitSeconds: 120, graceSeconds: 2 },
        () => undefined,
      );
    const memory = memoryOf(kernel);
    if (memory > heaviest.memory) heaviest = { memory, name: basename(file) };
    await kernel.shutdown();
  }
  console.log(
    `${`most memory of a kernel, in ${heaviest.name}`.padEnd(66)} ${heaviest.memory.toFixed(0).padStart(6)} MB  (wanted: at most 400 MB)`,
  );
  const started = performance.now();
  await reviewNotebooks(notebooks, { jobs: Math.min(2, availableParallelism()) });
  tell(
    `review of all ${notebooks.length} notebooks, two at a time`,
    performance.now() - started,
    45_000,
  );
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
