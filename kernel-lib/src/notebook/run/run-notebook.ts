import { dirname, resolve } from "node:path";
import { codeCells, readNotebook } from "../format";
import type { Notebook, NumberedCell } from "../format";
import { KernelClient } from "../kernel-client";
import { openNotebookCache } from "./cached-run";
import type { NotebookCache } from "./cached-run";
import { CellSession } from "./cell-session";
import type { CellRun } from "./cell-session";
import { keepResult } from "./keep-result";
import type { OnProgress } from "./progress";
import { withRecord } from "./notebook-record";
import { projectFolder, recordEnvironment } from "./recorded-environment";
import { selectCells } from "./select-cells";
import { setParameters } from "./set-parameters";

export interface RunOptions {
  /** Longest time one cell may run, in seconds. Default 120. */
  readonly timeLimitSeconds?: number;
  /** Time between interrupting and killing a cell that ran too long, in seconds. Default 2. */
  readonly graceSeconds?: number;
  readonly onProgress?: OnProgress;
  /**
   * New values for variables of the cell tagged `parameters`; texts are read as on a command line.
   */
  readonly parameters?: Readonly<Record<string, unknown>>;
  /**
   * Record only these code cells, such as `3-7`; the cells above run as well, as later ones rest on
   * them.
   */
  readonly only?: string;
  /** Folder to write to; the notebook's own place when left out. */
  readonly out?: string;
  /** Files and folders whose hashes are recorded, given from the project's folder. */
  readonly inputs?: readonly string[];
  /**
   * Use results of an earlier run when nothing they rest on has changed, and keep new ones.
   * Default false. A notebook with a cell tagged `no-cache` always runs.
   */
  readonly cache?: boolean;
  /** Stops the run: the running cell is interrupted and what ran is kept. */
  readonly signal?: AbortSignal;
  /** Limit of the kernel's heap in MB. */
  readonly heapLimitMB?: number;
  /** Extra environment variables of a kernel started afresh. */
  readonly environment?: Readonly<Record<string, string>>;
  /** Where kernels come from; started afresh when left out. */
  readonly startKernel?: (folder: string) => Promise<KernelClient>;
}

export interface NotebookRun {
  readonly file: string;
  readonly status: "done" | "failed";
  /** The file written: the notebook, or beside it the partial notebook of a failed run. */
  readonly written: string;
  readonly cells: readonly CellRun[];
  readonly seconds: number;
  /** The cell that ended the run. */
  readonly failure?: CellRun;
  readonly notebook: Notebook;
}

/** The kernel that a notebook names, so that Jupyter opens it with ours. */
const KERNELSPEC = {
  display_name: "Code comparison (TypeScript)",
  language: "typescript",
  name: "code-comparison",
};

/**
 * Runs a notebook from top to bottom in a fresh tslab kernel and records its outputs.
 * The first cell that fails ends the run: the notebook on disk stays as it is, and what ran is
 * kept beside it as `<name>.partial.ipynb`.
 *
 * @throws NotebookProblem when the notebook cannot be read, or an option does not fit it
 */
export async function runNotebook(file: string, options: RunOptions = {}): Promise<NotebookRun> {
  const started = Date.now();
  const notebook = setParameters(await readNotebook(file), options.parameters ?? {}, file);
  const all = codeCells(notebook);
  const chosen = options.only === undefined ? undefined : selectCells(options.only, all.length);
  const cells = all.slice(0, chosen ? Math.max(...chosen) : all.length);
  const folder = dirname(resolve(file));
  // Hashing the library and the data goes on while the kernel starts.
  const environment = recordEnvironment(projectFolder(folder), options.inputs ?? []);
  environment.catch(() => undefined);
  const tell = options.onProgress ?? (() => undefined);
  tell({ kind: "notebook-started", file, cells: cells.length });

  const cache = options.cache
    ? await openNotebookCache(file, cells, options.inputs ?? [])
    : undefined;
  const { runs, languageInfo } =
    (await takeFromCache(cells, cache)) ??
    (await runCells(folder, cells, tell, file, started, options, cache));
  for (const { number, title, status } of runs.filter((run) => run.status === "cached")) {
    tell({
      kind: "cell-finished",
      file,
      number,
      cells: cells.length,
      title,
      status,
      seconds: 0,
      elapsedSeconds: (Date.now() - started) / 1000,
      remainingSeconds: 0,
    });
  }

  for (const [index, run] of runs.entries()) {
    const cell = cells[index]?.cell;
    if (!cell || (chosen && !chosen.has(run.number))) continue;
    cell.outputs = run.outputs;
    cell.execution_count = run.executionCount;
  }
  const metadata = { ...notebook.metadata, kernelspec: KERNELSPEC, language_info: languageInfo };
  const recorded = withRecord({ ...notebook, metadata }, await environment);
  const failure = runs.find((run) => run.status !== "ok" && run.status !== "cached");
  const status = failure ? "failed" : "done";
  const written = await keepResult(file, recorded, status, options.out);
  const seconds = (Date.now() - started) / 1000;
  tell({ kind: "notebook-finished", file, status, seconds });
  return {
    file,
    status,
    written,
    cells: runs,
    seconds,
    notebook: recorded,
    ...(failure ? { failure } : {}),
  };
}

interface RunResult {
  readonly runs: CellRun[];
  readonly languageInfo: unknown;
}

async function runCells(
  folder: string,
  cells: readonly NumberedCell[],
  tell: OnProgress,
  file: string,
  started: number,
  options: RunOptions,
  cache: NotebookCache | undefined,
): Promise<RunResult> {
  const session = await openSession(folder, options);
  try {
    for (const numbered of cells) {
      const place = { file, number: numbered.number, cells: cells.length, title: numbered.title };
      tell({ kind: "cell-started", ...place });
      const run = await session.run(numbered);
      const elapsedSeconds = (Date.now() - started) / 1000;
      const remainingSeconds =
        (elapsedSeconds / numbered.number) * (cells.length - numbered.number);
      tell({
        kind: "cell-finished",
        ...place,
        status: run.status,
        seconds: run.seconds,
        elapsedSeconds,
        remainingSeconds,
      });
      if (run.status !== "ok") break;
    }
  } finally {
    await session.close();
  }
  const languageInfo = session.kernel.info["language_info"];
  await cache?.keep(session.runs, languageInfo);
  return { runs: session.runs, languageInfo };
}

async function takeFromCache(
  cells: readonly NumberedCell[],
  cache: NotebookCache | undefined,
): Promise<RunResult | undefined> {
  const found = await cache?.find();
  if (!found || found.length === 0) return undefined;
  const runs = found.map(({ outputs, executionCount }, index): CellRun => {
    const { number = index + 1, title = "" } = cells[index] ?? {};
    return { number, title, status: "cached", seconds: 0, outputs, executionCount };
  });
  return { runs, languageInfo: found[0]?.languageInfo };
}

/** A fresh kernel for a notebook's folder, within the limits of the options. */
export async function openSession(folder: string, options: RunOptions): Promise<CellSession> {
  const { heapLimitMB, environment } = options;
  const startFresh = (workingDirectory: string): Promise<KernelClient> =>
    KernelClient.start({
      workingDirectory,
      ...(heapLimitMB === undefined ? {} : { heapLimitMB }),
      ...(environment ? { environment } : {}),
    });
  const kernel = await (options.startKernel ?? startFresh)(folder);
  return new CellSession(kernel, {
    timeLimitSeconds: options.timeLimitSeconds ?? 120,
    graceSeconds: options.graceSeconds ?? 2,
    ...(options.signal ? { signal: options.signal } : {}),
  });
}
